import { beforeEach, describe, expect, test } from 'vitest';
import { EngineError } from '../../src/engine/engine-error.ts';
import type { Move } from '../../src/engine/moves/move.ts';
import type { FrameReport } from '../../src/engine/read-frame.ts';
import { type Setup, UNKNOWN_SETUP } from '../../src/engine/setup.ts';
import { TOLERANCES } from '../../src/engine/tolerances.ts';
import type { BenchEngine } from '../../src/screen/bench-engine.ts';
import { BenchSession } from '../../src/screen/bench-session.ts';
import { setupAtTake } from '../../src/takes/setup-after.ts';
import { readingFixture } from '../plots/reading-fixture.ts';

/** What each frame was last judged by: its name, and how the light was arranged. */
const judged: string[] = [];
/** At what distances the lights then stood, likewise. */
const stood: string[] = [];
let held: Promise<void> = Promise.resolve();

function standIn(): BenchEngine {
  const note = (name: string, { arrangement, lampDistanceMm }: Setup) => {
    judged.push(`${name} ${arrangement}`);
    stood.push(`${name} ${lampDistanceMm.join(' ')}`);
  };
  return {
    async read([frame], { setup }, { signal }) {
      await held;
      if (signal?.aborted) throw new EngineError('cancelled', 'stopped');
      note(frame!.name, setup);
      const reading = readingFixture({ columns: 2, rows: 2 });
      const readBy = { camera: null, response: null };
      return {
        ...{ reading: { ...reading, frame: { ...reading.frame, name: frame!.name } }, readBy },
      } as FrameReport;
    },
    async rejudge(report, { setup }) {
      note(report.reading.frame.name, setup);
      return { ...report, reading: { ...report.reading } };
    },
    async profile() {
      throw new EngineError('cannot-write', 'no gains');
    },
    dispose() {},
  };
}

const session = () => new BenchSession(standIn, { reading() {}, progress() {}, failure() {}, changed() {} });
const file = (name: string) => new File(['x'], name);
const arranged = (arrangement: Setup['arrangement'], ...lampDistanceMm: number[]): Setup => ({
  ...UNKNOWN_SETUP,
  arrangement,
  lampDistanceMm,
});

beforeEach(() => {
  judged.length = 0;
  stood.length = 0;
  held = Promise.resolve();
});

test('each take is judged by what was entered for its own set-up', async () => {
  const bench = session();
  await bench.read([file('sheet.png')], {}, { setup: arranged('behind-sheet', 600) });
  await bench.read([file('sweep.png')], {}, { setup: arranged('two-lamps', 900, 800) });
  await bench.read([file('sweep-after.png')], { done: [] });
  judged.length = 0;
  await bench.judgeBy({ tolerance: TOLERANCES.at(-1)! });
  expect(judged).toEqual(['sheet.png behind-sheet', 'sweep.png two-lamps', 'sweep-after.png two-lamps']);
  expect(bench.setup.lampDistanceMm).toEqual([900, 800]);

  judged.length = 0;
  await bench.judgeBy({ setup: arranged('panel') });
  expect(judged).toEqual(['sheet.png behind-sheet', 'sweep.png panel', 'sweep-after.png panel']);

  judged.length = 0;
  await bench.judgeBy({ setup: arranged('bounced', 500) }, 'take-1');
  expect(judged).toEqual(['sheet.png bounced', 'sweep.png panel', 'sweep-after.png panel']);
  expect(bench.setup.arrangement).toBe('panel');
});

test('a frame that comes with its set-up and is not read leaves the set-up as it was', async () => {
  const bench = session();
  await bench.read([file('a.png')], {}, { setup: arranged('behind-sheet', 600) });
  const stopped = bench.read([file('b.png')], {}, { setup: arranged('two-lamps') });
  bench.cancel();
  await expect(stopped).rejects.toMatchObject({ code: 'cancelled' });
  expect(bench.setup.arrangement).toBe('behind-sheet');
  expect(judged).toEqual(['a.png behind-sheet']);
});

test('a frame is judged by the newest settings, however often they change while it is read', async () => {
  const bench = session();
  let release = () => {};
  held = new Promise((done) => {
    release = done;
  });
  const read = bench.read([file('a.png')]);
  await bench.judgeBy({ setup: arranged('bounced') });
  await bench.judgeBy({ setup: arranged('panel') });
  release();
  await read;
  expect(judged.at(-1)).toBe('a.png panel');
  expect(bench.takes[0]!.setup.arrangement).toBe('panel');
});

test('a distance that was measured with a move stands from then on', async () => {
  const bench = session();
  await bench.read([file('a.png')], {}, { setup: arranged('behind-sheet', 600) });
  const farther = { kind: 'lamp-distance', lamp: 0, ratio: null } as const;
  const moves = [{ ...farther, bringsEv: null, toward: null, caution: null }];
  bench.takes = bench.takes.map((take) => ({ ...take, reading: { ...take.reading, moves } }));
  bench.answer(0, { kind: 'stands', fromMm: 500, toMm: 1000 });
  await bench.readNext([file('b.png')]);
  expect(bench.takes[1]!.done).toMatchObject([{ ratio: 2 }]);
  expect(setupAtTake(bench.takes, 'take-2').lampDistanceMm).toEqual([1000]);
  expect(bench.setup.lampDistanceMm).toEqual([600]);
});

const farther = (ratio: number | null, lamp = 0): Move => ({
  ...{ kind: 'lamp-distance', lamp, ratio },
  ...{ bringsEv: null, toward: null, caution: null },
});

test('moves that can’t have been made are refused before anything is read, and nothing is changed', async () => {
  const bench = session();
  await bench.read([file('a.png')], {}, { setup: arranged('behind-sheet', 600) });
  for (const [bad, says] of [
    [farther(0), /^move 1 .*"ratio".*not 0$/],
    [farther(2, 1), /^move 1 .*"lamp" has to be 0, the only light, not 1$/],
  ] as const) {
    const refused = bench.read([file('b.png')], { done: [bad] });
    await expect(refused).rejects.toThrow(RangeError);
    await expect(refused).rejects.toThrow(says);
  }
  expect(judged).toEqual(['a.png behind-sheet']);
  expect(bench.takes).toHaveLength(1);
  expect([bench.progress, bench.failure]).toEqual([null, null]);
  await bench.judgeBy({ setup: arranged('two-lamps', 600, 600) });
  await bench.read([file('b.png')], { done: [farther(2, 1)] });
  expect(bench.takes).toHaveLength(2);
  // its own moves do not stop a take from being read again, whatever the arrangement has become
  await bench.judgeBy({ setup: arranged('behind-sheet', 600) });
  await bench.readAgain({ left: 0, top: 0, right: 0.5, bottom: 1 });
  expect(bench.takes[1]!.region).toMatchObject({ right: 0.5 });
});

describe('a take after moves is read and judged with the light where it then stands', () => {
  test('when it is read, read again, or judged by another tolerance', async () => {
    const bench = session();
    await bench.read([file('a.png')], {}, { setup: arranged('behind-sheet', 600) });
    await bench.read([file('b.png')], { done: [farther(1.5)] });
    await bench.read([file('c.png')], { done: [farther(null)] }, { measuredMm: [1000] });
    expect(stood).toEqual(['a.png 600', 'b.png 900', 'c.png 1000']);

    stood.length = 0;
    await bench.readAgain({ left: 0, top: 0, right: 0.5, bottom: 1 });
    expect(stood).toEqual(['c.png 1000']);

    stood.length = 0;
    await bench.judgeBy({ tolerance: TOLERANCES.at(-1)! });
    expect(stood).toEqual(['a.png 600', 'b.png 900', 'c.png 1000']);
  });

  test('when what was entered for its set-up changes, also while it is read', async () => {
    const bench = session();
    await bench.read([file('a.png')], {}, { setup: arranged('behind-sheet', 600) });
    let release = () => {};
    held = new Promise((done) => {
      release = done;
    });
    const next = bench.read([file('b.png')], { done: [farther(2)] });
    await bench.judgeBy({ setup: arranged('behind-sheet', 500) });
    release();
    await next;
    expect(stood.at(-1)).toBe('b.png 1000');
    expect(bench.takes.map(({ setup }) => setup.lampDistanceMm)).toEqual([[500], [500]]);

    stood.length = 0;
    await bench.judgeBy({ setup: arranged('behind-sheet', 400) });
    expect(stood).toEqual(['a.png 400', 'b.png 800']);
  });

  test('when a second frame is shot with it, which is read with the same', async () => {
    const bench = session();
    await bench.read([file('a.png')], {}, { setup: arranged('behind-sheet', 600) });
    await bench.read([file('b.png')], { done: [farther(1.5)] });
    stood.length = 0;
    await bench.read([file('dark.png')], { role: 'lamp-off' });
    expect(stood).toEqual(['dark.png 900', 'b.png 900']);
  });

  test('but a new set-up stands as entered for it, whatever was moved in the one before', async () => {
    const bench = session();
    await bench.read([file('a.png')], {}, { setup: arranged('behind-sheet', 600) });
    await bench.read([file('b.png')], { done: [farther(1.5)] });
    await bench.read([file('new.png')]);
    expect(stood.at(-1)).toBe('new.png 600');
  });
});
