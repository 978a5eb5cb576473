import { beforeEach, expect, test } from 'vitest';
import { TOLERANCES } from '../../src/engine/tolerances.ts';
import { BenchSession } from '../../src/screen/bench-session.ts';
import { KeptShoots } from '../../src/screen/kept-shoots.ts';
import { ShelfInMemory } from '../takes/shelf-in-memory.ts';
import { file, judgedBy, SessionWatch } from './session-watch.ts';

let watch = new SessionWatch();
let shelf = new ShelfInMemory();
beforeEach(() => {
  watch = new SessionWatch();
  shelf = new ShelfInMemory();
});

/** A page with eight takes, all kept. */
async function eightTakes() {
  const kept = new KeptShoots({ shelf, claim: async () => true, pause: async () => {} });
  const failures: string[] = [];
  const bench = new BenchSession(
    watch.engine,
    {
      ...{ reading: () => {}, progress: () => {}, changed: () => {} },
      failure: ({ message }) => failures.push(message),
    },
    kept,
  );
  const keep = async () => {
    kept.keep(bench);
    await kept.settled();
  };
  for (let i = 1; i <= 8; i++) {
    await bench.read([file(`${i}.png`)]);
    await keep();
  }
  return { bench, keep, failures };
}

const held = (bench: BenchSession) =>
  bench.takes.map(({ report }) => (report === null ? '-' : judgedBy(report)));

test('reports of older takes lie on the shelf, and come back when their take is shown', async () => {
  const { bench, keep } = await eightTakes();
  const name = bench.tolerance.name;
  expect(held(bench)).toEqual(['-', '-', ...Array(6).fill(name)]);
  expect(bench.shown!.id).toBe('take-8');
  const showing = bench.show('take-1');
  expect([bench.fetching?.id, bench.shown!.id]).toEqual(['take-1', 'take-8']);
  await showing;
  expect([bench.fetching, bench.shown!.id, bench.shown!.reading.frame.name]).toEqual([
    null,
    'take-1',
    '1.png',
  ]);
  await keep();
  expect(held(bench)[0]).toBe(name); // as long as it is shown
  watch.calls.length = 0;
  await bench.show('take-2');
  await keep();
  expect(held(bench).slice(0, 2)).toEqual(['-', name]);
  expect(watch.calls).toEqual([]); // nothing has changed that they are judged by
});

test('a take that is asked for while another is fetched is the one that is shown', async () => {
  const { bench } = await eightTakes();
  const first = bench.show('take-1');
  const second = bench.show('take-2');
  await Promise.all([first, second]);
  expect(bench.shown!.id).toBe('take-2');
  const third = bench.show('take-1');
  await bench.show(null);
  await third;
  expect(bench.shown!.id).toBe('take-8');
});

test('by another tolerance, takes in memory are judged at once, the others before they are shown', async () => {
  const { bench, keep } = await eightTakes();
  const other = TOLERANCES.at(-1)!;
  watch.calls.length = 0;
  await bench.judgeBy({ tolerance: other });
  await keep();
  expect(watch.calls).toHaveLength(6);
  expect(held(bench)).toEqual(['-', '-', ...Array(6).fill(other.name)]);
  await bench.show('take-1');
  expect(judgedBy(bench.shown!.report)).toBe(other.name);
  await keep();
  await bench.show('take-8');
  await keep();
  // it was kept as judged anew
  watch.calls.length = 0;
  await bench.show('take-1');
  expect([watch.calls, judgedBy(bench.shown!.report)]).toEqual([[], other.name]);
});

test('a take that can’t be fetched is told of, and the one that was shown stays', async () => {
  const { bench, failures } = await eightTakes();
  shelf.evidenceOf = () => Promise.reject(new Error('damaged'));
  await bench.show('take-1');
  expect(failures).toEqual([expect.stringContaining('Take 1 could not be fetched')]);
  expect([bench.fetching, bench.shown!.id]).toEqual([null, 'take-8']);
  await expect(bench.profile(bench.takes[0]!.reading)).rejects.toMatchObject({ fileName: '1.png' });
});

test('a profile is made from the reading of a take whose report lies on the shelf', async () => {
  const { bench } = await eightTakes();
  // the stand-in engine makes none, but it was asked with the report
  await expect(bench.profile(bench.takes[0]!.reading)).rejects.toMatchObject({ code: 'cannot-write' });
  expect(held(bench)[0]).toBe('-');
});

test('a take that is deleted while it is fetched to be shown leaves what was shown, without a word', async () => {
  const { bench, failures } = await eightTakes();
  const showing = bench.show('take-1');
  await bench.delete('take-1');
  await showing;
  expect([bench.fetching, bench.shown!.id, failures]).toEqual([null, 'take-8', []]);
  // it has no place among the takes by which it could be judged
  expect(watch.calls.filter((call) => call.startsWith('rejudge 1.png'))).toEqual([]);
});

test('the newest two deleted at once leave the newest of the others in full', async () => {
  const { bench, failures } = await eightTakes();
  for (const { id } of bench.takes.slice(3, 8)) await bench.delete(id); // three are left, two of them light
  expect(held(bench).slice(0, 2)).toEqual(['-', '-']);
  await Promise.all([bench.delete('take-3'), bench.delete('take-2')]);
  expect([bench.takes.map(({ id }) => id), bench.shown?.id]).toEqual([['take-1'], 'take-1']);
  expect([held(bench), failures]).toEqual([[bench.tolerance.name], []]);
});
