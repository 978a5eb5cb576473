import { expect, test } from 'vitest';
import type { OutCoding } from '../../../src/engine/correct/apply-gains.ts';
import { correctLight } from '../../../src/engine/correct/correct-light.ts';
import { makeProfile } from '../../../src/engine/profile/make-profile.ts';
import { toPng } from '../../synthetic/encode.ts';
import { exposedBy, randomField } from '../../synthetic/known-field.ts';
import { renderFrame } from '../../synthetic/render-frame.ts';
import { frameOfCodes } from '../grid/frame-of-codes.ts';
import { measureBytes } from '../known-frames.ts';
import { blocksOfLight } from './blocks-of-light.ts';

const LINEAR = Float64Array.from({ length: 65536 }, (_, code) => code / 65535);
const OUT: OutCoding = {
  channels: 3,
  bitsPerSample: 16,
  lightAtCode: { red: LINEAR, green: LINEAR, blue: LINEAR },
};

test('the profile of a dark linear blank serves frames three stops more and less, and of half the size', async () => {
  const { field } = randomField(52, { family: 'hot-spot', spreadEv: 1, peak: 2 ** -3.5 });
  // frames of even light only, so that what is left is the correction's own error: noise is averaged in blocks
  const shot = (stops: number, widthPx: number, heightPx: number, seed: number) =>
    renderFrame(exposedBy(field, stops), {
      widthPx,
      heightPx,
      bits: 16,
      curve: 'linear',
      electronsAtFull: 30_000,
      seed,
    });
  const measured = await measureBytes(toPng(shot(0, 720, 480, 1), { gamma: 1 }));
  expect(measured.measurement.frame.light).toBe('scene-linear');
  const profile = makeProfile({ ...measured, reading: measured.measurement });
  for (const [stops, widthPx, heightPx, blockPx] of [
    [0, 720, 480, 64],
    [3, 720, 480, 64],
    [-3, 720, 480, 64],
    [0, 360, 240, 32],
    [3, 360, 240, 32],
  ] as const) {
    const frame = frameOfCodes(shot(stops, widthPx, heightPx, 5), { isLinear: true });
    const { samples, clippedPixels } = correctLight(frame, profile, {}, OUT);
    const light = Float64Array.from(samples, (code) => code / 65535);
    const left = blocksOfLight(light, widthPx, () => true, blockPx);
    // the blank's own blocks, so that an error of the profile is not told twice
    console.log(
      `measured: ${stops} stops, ${widthPx} × ${heightPx}: ${left.ev.toFixed(4)} EV and ${left.uv.toFixed(5)} u′v′ left in blocks of ${blockPx} pixels, ${clippedPixels} pixels pushed beyond white`,
    );
    expect(left.ev).toBeLessThanOrEqual(0.01);
  }
});
