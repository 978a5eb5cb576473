import { expect, test } from 'vitest';
import { quantile } from '../../../src/engine/numeric/quantile.ts';
import { makeProfile } from '../../../src/engine/profile/make-profile.ts';
import { parseProfile } from '../../../src/engine/profile/parse-profile.ts';
import { uvPrimeOfXyz, xyzOfSrgbLight } from '../../synthetic/colour-truth.ts';
import { toPng } from '../../synthetic/encode.ts';
import { FIELD_FAMILIES } from '../../synthetic/field-families.ts';
import { randomField } from '../../synthetic/known-field.ts';
import { type RenderedFrame, renderFrame } from '../../synthetic/render-frame.ts';
import { readBytes } from '../known-frames.ts';
import { correctedFrame } from './corrected-frame.ts';

const BLOCK_PX = 64;
const WHITE = uvPrimeOfXyz(xyzOfSrgbLight([1, 1, 1]));

/** Stops of luminance from the 0.5th to the 99.5th percentile of blocks, and their farthest distance from white. */
function leftInBlocks(light: Float64Array, { widthPx, heightPx }: RenderedFrame): { ev: number; uv: number } {
  const levels: number[] = [];
  let uv = 0;
  for (let top = 0; top + BLOCK_PX <= heightPx; top += BLOCK_PX) {
    for (let left = 0; left + BLOCK_PX <= widthPx; left += BLOCK_PX) {
      const sum: [number, number, number] = [0, 0, 0];
      for (let row = top; row < top + BLOCK_PX; row++) {
        for (let column = left; column < left + BLOCK_PX; column++) {
          for (const channel of [0, 1, 2] as const)
            sum[channel] += light[(row * widthPx + column) * 3 + channel]!;
        }
      }
      const xyz = xyzOfSrgbLight(sum);
      levels.push(Math.log2(xyz[1]));
      const [u, v] = uvPrimeOfXyz(xyz);
      uv = Math.max(uv, Math.hypot(u - WHITE[0], v - WHITE[1]));
    }
  }
  return { ev: quantile(levels, 0.995) - quantile(levels, 0.005), uv };
}

for (const family of FIELD_FAMILIES) {
  for (const spreadEv of [1, 3]) {
    test(`the profile of a ${family} field of ${spreadEv} EV evens and neutralises its own frame`, async () => {
      const { field, describe } = randomField(1000 + spreadEv * 10, { family, spreadEv });
      const frame = renderFrame(field, {
        widthPx: 1200,
        heightPx: 800,
        bits: 16,
        curve: 'srgb',
        electronsAtFull: 30_000,
        seed: 7,
      });
      const report = await readBytes(toPng(frame));
      const text = JSON.stringify(makeProfile(report));
      expect(text.length).toBeLessThanOrEqual(1_000_000);
      const profile = parseProfile(text);
      const left = leftInBlocks(correctedFrame(frame, profile), frame);
      console.log(
        `measured: ${describe}: ${profile.model.name} leaves ${left.ev.toFixed(4)} EV and ${left.uv.toFixed(5)} u′v′ (says ${profile.model.residualSpreadEv.toFixed(4)} EV; ${text.length} characters)`,
      );
      expect(left.ev).toBeLessThanOrEqual(0.02);
      expect(left.uv).toBeLessThanOrEqual(0.001);
    });
  }
}
