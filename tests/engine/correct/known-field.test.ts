import { beforeAll, expect, test } from 'vitest';
import { correctLight } from '../../../src/engine/correct/correct-light.ts';
import { quantile } from '../../../src/engine/numeric/quantile.ts';
import type { Profile } from '../../../src/engine/profile/profile.ts';
import { blockDifferences } from './block-differences.ts';
import { blocksOfLight } from './blocks-of-light.ts';
import { HEIGHT_PX, SCENES, WIDTH_PX } from './scenes.ts';
import { blankOf, levelAimedAt, lightOf, profileOfBlank, shoot, srgbOut } from './shot-scene.ts';

let profile: Profile;
beforeAll(async () => {
  profile = await profileOfBlank(blankOf(SCENES.empty));
}, 60_000);

test('everything: the background becomes even and neutral, and flat translucent things keep their own colour', () => {
  const scene = SCENES['flat filters'];
  const shot = shoot(scene);
  const out = srgbOut(16);
  const result = correctLight(shot.frame, profile, {}, out);
  const corrected = lightOf(result.samples, out);
  const distance = (pixel: number) =>
    Math.min(
      ...scene.subjects.map((subject) =>
        subject.distancePx((pixel % WIDTH_PX) + 0.5, Math.floor(pixel / WIDTH_PX) + 0.5),
      ),
    );
  const left = blocksOfLight(corrected, WIDTH_PX, (pixel) => distance(pixel) > 4);
  const level = levelAimedAt(shot, corrected, (pixel) => distance(pixel) > 4);
  // what flat glass lets through of the even light
  const perfect = shot.truth.light.map((value, at) => (value / shot.bare[at]!) * level[at % 3]!);
  const filters = blockDifferences(corrected, perfect, WIDTH_PX, (pixel) => distance(pixel) < -4, 'all');
  console.log(
    `measured: background ${left.ev.toFixed(4)} EV and ${left.uv.toFixed(5)} u′v′ over ${left.blocks} blocks; flat filters: 99 % of ${filters.length} 8 × 8 means within CIEDE2000 ${quantile(filters, 0.99).toFixed(3)}, worst ${Math.max(...filters).toFixed(3)}`,
  );
  expect(left.ev).toBeLessThanOrEqual(0.02);
  expect(left.uv).toBeLessThanOrEqual(0.001);
  expect(quantile(filters, 0.99)).toBeLessThanOrEqual(0.5);
});

for (const bits of [8, 16] as const) {
  test(`noise grows by the gain and no more than 5 % beyond, written in ${bits} bits`, () => {
    const shot = shoot(SCENES.empty, -0.13, bits);
    const out = srgbOut(bits);
    const { samples } = correctLight(shot.frame, profile, { neutral: false }, out);
    const before = scatterIn(lightOf(shot.frame.samples as Uint8Array | Uint16Array, out));
    const after = scatterIn(lightOf(samples, out));
    let worst = 0;
    for (const [at, { scatter, light }] of before.entries()) {
      const grown = scatter * (after[at]!.light / light);
      // light of half a code where the corrected light lies
      const dither = bits === 8 ? 0.5 * lightPerCode(after[at]!.light) : 0;
      worst = Math.max(worst, after[at]!.scatter / Math.hypot(grown, dither));
    }
    console.log(
      `measured: ${bits} bits: noise of green at most ${worst.toFixed(3)} × what gain${bits === 8 ? ' and half a code' : ''} makes of it, in ${before.length} blocks`,
    );
    expect(worst).toBeLessThanOrEqual(1.05);
  });
}

const BLOCK = 48;

/** Mean and scatter of green light in blocks; scatter by differences of neighbours, so that slopes do not count. */
function scatterIn(light: Float64Array): { scatter: number; light: number }[] {
  const blocks: { scatter: number; light: number }[] = [];
  for (let top = 0; top + BLOCK <= HEIGHT_PX; top += BLOCK) {
    for (let left = 0; left + BLOCK <= WIDTH_PX; left += BLOCK) {
      let squares = 0;
      let sum = 0;
      const count = BLOCK * (BLOCK - 1);
      for (let y = top; y < top + BLOCK; y++) {
        for (let x = left; x + 1 < left + BLOCK; x++) {
          const at = (y * WIDTH_PX + x) * 3 + 1;
          squares += (light[at]! - light[at + 3]!) ** 2;
          sum += light[at]!;
        }
      }
      blocks.push({ scatter: Math.sqrt(squares / count / 2), light: sum / count });
    }
  }
  return blocks;
}

/** Of the sRGB curve in 8 bits, above its straight foot. */
function lightPerCode(light: number): number {
  return (2.4 / 1.055 / 255) * light ** (1.4 / 2.4);
}
