import type { BackgroundLevel } from '../../src/engine/exposure/background-level.ts';
import { UNKNOWN_SETUP } from '../../src/engine/setup.ts';
import { DEFAULT_TOLERANCE } from '../../src/engine/tolerances.ts';
import { type FullTake, judgedAnew } from '../../src/takes/take.ts';
import { readingFixture } from '../plots/reading-fixture.ts';

const LEVEL: BackgroundLevel = {
  ...{ meanEv: -1, meanPlusMinusEv: 0.02, brightestEv: -0.9, brightestPlusMinusEv: 0.02 },
  ...{ darkestEv: -1.1, darkestPlusMinusEv: 0.02, meanAtLeastEv: -1 },
  ...{ firstChannel: 'green', firstEv: -0.9, overEv: null, clippedShare: 0, isAssumed: false },
};

/** A take in full, of which one cell of four has no measurement. */
export function heldTake(id: string, changes: Partial<FullTake> = {}): FullTake {
  const reading = readingFixture({ columns: 2, rows: 2 });
  const { falloff, frame } = reading;
  const evMap = [0, -0.1, null, -0.2];
  const report = {
    reading: { ...reading, frame: { ...frame, name: `${id}.png` }, falloff: { ...falloff, evMap } },
    readBy: { camera: null, response: null },
    samples: { ev: Float64Array.of(0, -0.1) },
    set: { found: [] },
    level: LEVEL,
    aimed: null,
  } as unknown as FullTake['report'];
  const judgedBy = { setup: UNKNOWN_SETUP, tolerance: DEFAULT_TOLERANCE, after: [] };
  const facts = {
    id,
    note: '',
    done: null,
    foretold: null,
    setup: UNKNOWN_SETUP,
    measuredMm: [],
    shotAt: 0,
    movedSince: null,
  };
  const take = { ...facts, region: undefined, secondFrames: [], frames: [], reading: report.reading };
  return {
    ...judgedAnew({ ...take, judgedBy, report } as unknown as FullTake, report, judgedBy),
    ...changes,
  };
}
