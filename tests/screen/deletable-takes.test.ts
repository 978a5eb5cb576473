import { beforeEach, expect, test } from 'vitest';
import type { BenchSession } from '../../src/screen/bench-session.ts';
import { file, heldBack, SessionWatch } from './session-watch.ts';

let watch = new SessionWatch();
beforeEach(() => {
  watch = new SessionWatch();
});

const done = (bench: BenchSession) =>
  bench.takes.map((take) => [take.id, take.done?.map(({ kind }) => kind) ?? null]);

/** A take, the moves it advised answered as done, and the next one. */
async function twoTakes(): Promise<BenchSession> {
  const bench = watch.session(watch.engineWithMoves);
  await bench.read([file('a.png')]);
  bench.answer(0, { kind: 'done' });
  await bench.readNext([file('b.png')]);
  return bench;
}

test('a deleted newest take: the lights were moved all the same, and the next frame goes by it', async () => {
  const bench = await twoTakes();
  await bench.delete('take-2');
  expect([bench.takes.length, bench.hasAnswers]).toEqual([1, true]);
  await bench.readNext([file('c.png')]);
  expect(done(bench)).toEqual([
    ['take-1', null],
    ['take-3', ['slide-lamp']],
  ]);
  expect(bench.takes[1]!.foretold).toBeNull();
  await bench.takeBack();
  expect(done(bench)).toEqual([
    ['take-1', null],
    ['take-2', ['slide-lamp']],
    ['take-3', []],
  ]);
  expect(bench.deleted).toBeNull();
});

test('a followed frame after a deleted take counts what was done before that as done, and nothing twice', async () => {
  const bench = await twoTakes();
  await bench.delete('take-2');
  await bench.readFollowed(file('c.png'), 'as-advised');
  expect(done(bench).at(-1)).toEqual(['take-3', ['slide-lamp']]);
});

test('a take that is deleted while the next frame is read hands its moves on to it', async () => {
  const bench = await twoTakes();
  let letGo = () => {};
  watch.held.read = new Promise((resolve) => {
    letGo = resolve;
  });
  const reading = bench.readFollowed(file('c.png'), 'unmoved');
  await expect.poll(() => watch.calls).toContain('read c.png');
  await bench.delete('take-2');
  letGo();
  await reading;
  expect(done(bench)).toEqual([
    ['take-1', null],
    ['take-3', ['slide-lamp']],
  ]);
});

test('the answers of a deleted newest take come back with it', async () => {
  const bench = await twoTakes();
  bench.answer(1, { kind: 'not-done' });
  await bench.delete('take-2');
  expect(bench.answers.some((answer) => answer !== null)).toBe(false);
  await bench.takeBack();
  expect(bench.answers).toContainEqual({ kind: 'not-done' });
});

test('the only take can be deleted and taken back, and what is shown follows', async () => {
  const bench = watch.session();
  await bench.read([file('a.png')]);
  await bench.show('take-1');
  await bench.delete('take-1');
  expect([bench.takes.length, bench.shown]).toEqual([0, undefined]);
  await bench.takeBack();
  expect(bench.shown!.id).toBe('take-1');
});

test('takes beside a deleted one are judged anew', async () => {
  const bench = watch.session();
  for (const name of ['a', 'b', 'c']) await bench.read([file(name)], { done: [] });
  watch.calls.length = 0;
  await bench.delete('take-2');
  expect(watch.calls.map((call) => call.split(' by ')[0])).toEqual(['rejudge a', 'rejudge c']);
  expect(bench.takes[1]!.judgedBy.after).toEqual(['take-1']);
});

test('a take that is deleted while it is read again says so, and stays deleted', async () => {
  const bench = watch.session();
  for (const name of ['a.png', 'b.png']) await bench.read([file(name)], { done: [] });
  const { held, letGo } = heldBack();
  watch.held.read = held;
  watch.calls.length = 0;
  const reading = bench.readAgain();
  await expect.poll(() => watch.calls).toContain('read b.png');
  await bench.delete('take-2');
  letGo();
  await expect(reading).rejects.toMatchObject({ code: 'cancelled', message: 'Its take was deleted.' });
  expect([bench.takes.map(({ id }) => id), bench.progress]).toEqual([['take-1'], null]);
});
