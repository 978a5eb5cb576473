import type { FrameReport } from '../../src/engine/read-frame.ts';
import { UNKNOWN_SETUP } from '../../src/engine/setup.ts';
import { DEFAULT_TOLERANCE } from '../../src/engine/tolerances.ts';
import { type FullTake, withTake } from '../../src/takes/take.ts';
import { readBytes } from '../engine/known-frames.ts';
import { toPng } from '../synthetic/encode.ts';
import { randomField } from '../synthetic/known-field.ts';
import { renderFrame } from '../synthetic/render-frame.ts';

/** What was really read of a small frame: nothing of it is made up. */
const report = await readBytes(
  toPng(
    renderFrame(randomField(3, { spreadEv: 0.6 }).field, {
      ...{ widthPx: 48, heightPx: 32, bits: 8, curve: 'srgb', electronsAtFull: 30_000, seed: 3 },
    }),
  ),
);

/** A take in full as the page holds it: of that frame, or of another report. */
export function wholeTake(id: string, note = '', shotAt = 0, of: FrameReport = report): FullTake {
  const { reading } = of;
  const named = { ...of, reading: { ...reading, frame: { ...reading.frame, name: `${id}.png` } } };
  const judgedBy = { setup: UNKNOWN_SETUP, tolerance: DEFAULT_TOLERANCE, after: [] };
  const [take] = withTake([], {
    ...{ id, report: named, done: null, foretold: null, setup: UNKNOWN_SETUP, measuredMm: [] },
    ...{ region: undefined, secondFrames: [], frames: [], shotAt, judgedBy },
  });
  return { ...take!, note } as FullTake;
}
