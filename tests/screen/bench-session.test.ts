import { beforeEach, expect, test } from 'vitest';
import { EngineError } from '../../src/engine/engine-error.ts';
import type { Move } from '../../src/engine/moves/move.ts';
import type { FrameReport } from '../../src/engine/read-frame.ts';
import { UNKNOWN_SETUP } from '../../src/engine/setup.ts';
import { TOLERANCES } from '../../src/engine/tolerances.ts';
import type { BenchEngine } from '../../src/screen/bench-engine.ts';
import { BenchSession } from '../../src/screen/bench-session.ts';
import { readingFixture } from '../plots/reading-fixture.ts';

const calls: string[] = [];
const told: string[] = [];
let held: Promise<void> = Promise.resolve();

/** An engine that reads nothing: files named "bad…" fail, and every answer says what it was asked. */
function standIn(): BenchEngine {
  return {
    async read(frames, _options, { signal, onProgress }) {
      calls.push(`read ${frames.map(({ name }) => name).join('+')}`);
      onProgress?.('decoding', 0.5);
      await held;
      if (signal?.aborted) throw new EngineError('cancelled', 'stopped');
      if (frames[0]!.name.startsWith('bad')) throw new EngineError('not-an-image', 'that is no picture');
      if (frames[0]!.name.startsWith('broken')) throw new TypeError('undefined is not a function');
      return reportOf(frames[0]!.name);
    },
    async rejudge(report, { tolerance }) {
      calls.push(`rejudge ${report.reading.frame.name} by ${tolerance.name}`);
      return { ...report, reading: { ...report.reading } };
    },
    async profile() {
      throw new EngineError('cannot-write', 'no gains');
    },
    dispose() {},
  };
}

function reportOf(name: string): FrameReport {
  const reading = readingFixture({ columns: 2, rows: 2 });
  return { reading: { ...reading, frame: { ...reading.frame, name } } } as FrameReport;
}

/** An engine whose frames each need one slide of the light, and farther. */
function withMoves(): BenchEngine {
  const outcome = { bringsEv: null, toward: null, caution: null };
  const unknown = { rightMm: null, downMm: null, rightFrameWidths: null, downFrameWidths: null };
  const slide: Move = { ...outcome, ...unknown, kind: 'slide-lamp', lamp: 0, toward: 0 };
  const farther: Move = { ...outcome, kind: 'lamp-distance', lamp: 0, ratio: null };
  const moved = (report: FrameReport, moves: Move[]) => ({
    ...report,
    reading: { ...report.reading, moves },
  });
  const engine = standIn();
  return {
    ...engine,
    read: async (...asked) => moved(await engine.read(...asked), [slide, farther]),
    rejudge: async (...asked) => moved(await engine.rejudge(...asked), [farther]),
  };
}

function session(engine = standIn): BenchSession {
  return new BenchSession(engine, {
    reading: (reading) => told.push(`reading ${reading.frame.name}`),
    progress: ({ phase }) => told.push(phase),
    failure: ({ code, fileName }) => told.push(`${code} ${fileName}`),
    changed: () => {},
  });
}

const file = (name: string) => new File(['x'], name);

beforeEach(() => {
  calls.length = 0;
  told.length = 0;
});

test('read(files) keeps the takes in the order asked for and tells of each', async () => {
  const bench = session();
  await Promise.all([bench.read([file('a.png')]), bench.read([file('b.png'), file('c.png')], { done: [] })]);
  expect(calls).toEqual(['read a.png', 'read b.png+c.png']);
  expect(bench.takes.map(({ id, done }) => [id, done])).toEqual([
    ['take-1', null],
    ['take-2', []],
  ]);
  expect(told).toEqual(['opening', 'decoding', 'reading a.png', 'opening', 'decoding', 'reading b.png']);
});

test('a file that fails leaves takes and settings, and rejects with code, message and file name', async () => {
  const bench = session();
  await bench.read([file('a.png')]);
  const before = bench.takes;
  await expect(bench.read([file('bad.txt')])).rejects.toMatchObject({
    code: 'not-an-image',
    message: 'that is no picture',
    fileName: 'bad.txt',
  });
  expect(bench.takes).toBe(before);
  expect(bench.failure?.fileName).toBe('bad.txt');
  expect(told).toContain('not-an-image bad.txt');
  await bench.read([file('b.png')]);
  expect(bench.failure).toBeNull();
});

test('a defect is not passed off as the photographer’s', async () => {
  await expect(session().read([file('broken.png')])).rejects.toThrow(
    'Reading stopped where it should not have',
  );
});

test('an option that is not understood is refused, and nothing is read', async () => {
  const bench = session();
  await expect(bench.read([file('a.png')], { role: 'lamp-off' } as object)).rejects.toThrow(/"role"/);
  expect([calls, bench.takes]).toEqual([[], []]);
});

test('assigning an equal set-up or tolerance changes nothing', async () => {
  const bench = session();
  await bench.read([file('a.png')]);
  calls.length = 0;
  await bench.judgeBy({ setup: structuredClone(UNKNOWN_SETUP), tolerance: structuredClone(bench.tolerance) });
  expect(calls).toEqual([]);
});

test('another tolerance judges every take anew without reading it again', async () => {
  const bench = session();
  await bench.read([file('a.png')]);
  await bench.read([file('b.png')]);
  calls.length = 0;
  await bench.judgeBy({ tolerance: TOLERANCES.at(-1)! });
  expect(calls).toEqual([
    `rejudge a.png by ${TOLERANCES.at(-1)!.name}`,
    `rejudge b.png by ${TOLERANCES.at(-1)!.name}`,
  ]);
  expect(bench.takes.map(({ reading, report }) => reading === report.reading)).toEqual([true, true]);
});

test('settings changed while a frame is read hold for it too', async () => {
  const bench = session();
  let letGo = () => {};
  held = new Promise((resolve) => {
    letGo = resolve;
  });
  const reading = bench.read([file('a.png')]);
  await expect.poll(() => told).toContain('decoding');
  await bench.judgeBy({ tolerance: TOLERANCES.at(-1)! });
  letGo();
  await reading;
  expect(calls).toContain(`rejudge a.png by ${TOLERANCES.at(-1)!.name}`);
});

test('cancel() rejects what is under way and what waits, with the code cancelled', async () => {
  const bench = session();
  const both = [bench.read([file('a.png')]), bench.read([file('b.png')])];
  bench.cancel();
  for (const result of await Promise.allSettled(both))
    expect(result).toMatchObject({ status: 'rejected', reason: { code: 'cancelled' } });
  expect(bench.takes).toEqual([]);
});

test('profile(reading) knows a take’s reading by what it says, and refuses any other', async () => {
  const bench = session();
  const reading = await bench.read([file('a.png')]);
  await expect(bench.profile(structuredClone(reading))).rejects.toMatchObject({ code: 'cannot-write' });
  await expect(bench.profile(readingFixture())).rejects.toThrow(RangeError);
});

test('readAgain(region) reads the newest take’s own files and takes its place', async () => {
  const bench = session();
  await bench.read([file('a.png')]);
  await bench.read([file('b.png'), file('c.png')], { done: [] });
  const region = { left: 0.1, top: 0, right: 1, bottom: 0.9 };
  await bench.readAgain(region);
  expect(calls).toEqual(['read a.png', 'read b.png+c.png', 'read b.png+c.png']);
  expect(bench.takes.map(({ id, done, region: read }) => ({ id, done, read }))).toEqual([
    { id: 'take-1', done: null, read: undefined },
    { id: 'take-2', done: [], read: region },
  ]);
});

test('readNext(files) belongs to the newest take’s set-up, with the moves answered as done', async () => {
  const bench = session(withMoves);
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

test('answers outlive a frame that fails, and go with their moves when these are advised anew', async () => {
  const bench = session(withMoves);
  await bench.read([file('a.png')]);
  bench.answer(1, { kind: 'done' });
  await bench.readNext([file('bad.txt')]).catch(() => {});
  expect(bench.answers).toEqual([null, { kind: 'done' }]);
  await bench.judgeBy({ tolerance: TOLERANCES.at(-1)! });
  expect(bench.answers).toEqual([{ kind: 'done' }]);
  bench.answer(0, null);
  expect(bench.hasAnswers).toBe(false);
});

test('a note stays with its take when takes are judged anew', async () => {
  const bench = session();
  await bench.read([file('a.png')]);
  await bench.read([file('b.png')]);
  bench.note('take-1', 'sheet ironed');
  await bench.judgeBy({ tolerance: TOLERANCES.at(-1)! });
  expect(bench.takes.map(({ note }) => note)).toEqual(['sheet ironed', '']);
});
