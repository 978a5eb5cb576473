import { beforeEach, expect, test } from 'vitest';
import { UNKNOWN_SETUP } from '../../src/engine/setup.ts';
import { readingFixture } from '../plots/reading-fixture.ts';
import { file, SessionWatch } from './session-watch.ts';

let watch = new SessionWatch();
beforeEach(() => {
  watch = new SessionWatch();
});

test('read(files) keeps the takes in the order asked for and tells of each', async () => {
  const bench = watch.session();
  await Promise.all([bench.read([file('a.png')]), bench.read([file('b.png'), file('c.png')], { done: [] })]);
  expect(watch.calls).toEqual(['read a.png', 'read b.png+c.png']);
  expect(bench.takes.map(({ id, done }) => [id, done])).toEqual([
    ['take-1', null],
    ['take-2', []],
  ]);
  expect(watch.told).toEqual([
    'opening',
    'decoding',
    'reading a.png',
    'opening',
    'decoding',
    'reading b.png',
  ]);
});

test('a file that fails leaves takes and settings, and rejects with code, message and file name', async () => {
  const bench = watch.session();
  await bench.read([file('a.png')]);
  const before = bench.takes;
  await expect(bench.read([file('bad.txt')])).rejects.toMatchObject({
    code: 'not-an-image',
    message: 'that is no picture',
    fileName: 'bad.txt',
  });
  expect(bench.takes).toBe(before);
  expect(bench.failure?.fileName).toBe('bad.txt');
  expect(watch.told).toContain('not-an-image bad.txt');
  await bench.read([file('b.png')]);
  expect(bench.failure).toBeNull();
});

test('a defect is not passed off as the photographer’s', async () => {
  await expect(watch.session().read([file('broken.png')])).rejects.toThrow(
    'Reading stopped where it should not have',
  );
});

test('an option that is not understood is refused, and nothing is read', async () => {
  const bench = watch.session();
  await expect(bench.read([file('a.png')], { white: null } as object)).rejects.toThrow(/"white"/);
  expect([watch.calls, bench.takes]).toEqual([[], []]);
});

test('cancel() rejects what is under way and what waits, with the code cancelled', async () => {
  const bench = watch.session();
  const both = [bench.read([file('a.png')]), bench.read([file('b.png')])];
  bench.cancel();
  for (const result of await Promise.allSettled(both))
    expect(result).toMatchObject({ status: 'rejected', reason: { code: 'cancelled' } });
  expect(bench.takes).toEqual([]);
});

test('profile(reading) knows a take’s reading by what it says, and refuses any other', async () => {
  const bench = watch.session();
  const reading = await bench.read([file('a.png')]);
  await expect(bench.profile(structuredClone(reading))).rejects.toMatchObject({ code: 'cannot-write' });
  await expect(bench.profile(readingFixture())).rejects.toThrow(RangeError);
});

test('readAgain(region) reads the newest take’s own files and takes its place', async () => {
  const bench = watch.session();
  await bench.read([file('a.png')]);
  await bench.read([file('b.png'), file('c.png')], { done: [] });
  const region = { left: 0.1, top: 0, right: 1, bottom: 0.9 };
  await bench.readAgain(region);
  expect(watch.calls).toEqual(['read a.png', 'read b.png+c.png', 'read b.png+c.png']);
  expect(bench.takes.map(({ id, done, region: read }) => ({ id, done, read }))).toEqual([
    { id: 'take-1', done: null, read: undefined },
    { id: 'take-2', done: [], read: region },
  ]);
});

test('readNext(files) belongs to the newest take’s set-up, with the moves answered as done', async () => {
  const bench = watch.session(watch.engineWithMoves);
  await bench.judgeBy({ setup: { ...UNKNOWN_SETUP, lampDistanceMm: [500] } });
  await bench.read([file('a.png')]);
  expect(bench.hasAnswers).toBe(false);
  bench.answer(0, { kind: 'not-done' });
  bench.answer(1, { kind: 'stands', fromMm: null, toMm: 750 });
  expect(bench.hasAnswers).toBe(true);
  await bench.readNext([file('b.png')]);
  expect(bench.takes.at(-1)!.done).toMatchObject([{ kind: 'lamp-distance', ratio: 1.5 }]);
  expect(bench.hasAnswers).toBe(false);

  bench.answer(1, { kind: 'stands', fromMm: null, toMm: 1500 });
  await bench.readNext([file('c.png')]);
  expect(bench.takes.at(-1)!.done).toMatchObject([{ kind: 'lamp-distance', ratio: 2 }]);
});
