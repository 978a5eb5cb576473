import { expect, test } from 'vitest';
import { correctLight, foretellLevels } from '../../../src/engine/correct/correct-light.ts';
import { pixelsBeyondWhite } from '../../../src/engine/correct/corrected-levels.ts';
import { expectWithin } from '../../expect-within.ts';
import { xyzOfSrgbLight } from '../../synthetic/colour-truth.ts';
import { latticeOf, profileOf } from './profile-of.ts';
import { SCENES, WIDTH_PX } from './scenes.ts';
import { lightOf, shoot, srgbOut } from './shot-scene.ts';

const scene = SCENES['bright opaque box'];
const shot = shoot(scene);
const out = srgbOut(16);
/** Gains of the true light, so that the level alone is tried. */
const undone = profileOf(
  latticeOf(73, 49, (x, y) => {
    const [red, green, blue] = scene.field(x, y);
    return [Math.log2(0.4 / red), Math.log2(0.4 / green), Math.log2(0.4 / blue)];
  }),
);

for (const blank of [undefined, shot.blank]) {
  const told = blank ? 'told by its blank' : 'told by the level that most of the frame shares';
  for (const levelEv of [0.5, 0.05]) {
    test(`the background, ${told}, comes to lie ${levelEv} stop below white, and what will clip is known before`, () => {
      const options = { ...(blank && { blank }) };
      const foretold = foretellLevels(shot.frame, undone, options, false);
      expect(foretold.backgroundEv).not.toBeNull();
      const pixels = pixelsBeyondWhite(foretold, -levelEv - foretold.backgroundEv!);
      const result = correctLight(shot.frame, undone, { ...options, levelEv }, out);
      const light = lightOf(result.samples, out);
      const sum: [number, number, number] = [0, 0, 0];
      let count = 0;
      for (let y = 20; y < 100; y++) {
        for (let x = 20; x < 700; x++, count++)
          for (const channel of [0, 1, 2] as const) sum[channel] += light[(y * WIDTH_PX + x) * 3 + channel]!;
      }
      const level = Math.log2(xyzOfSrgbLight(sum)[1] / count);
      console.log(
        `measured: ${levelEv} stop below white wanted, ${(-level).toFixed(4)} come; ${pixels} pixels foretold to clip, ${result.clippedPixels} did`,
      );
      if (levelEv === 0.5) expectWithin(level, -levelEv, 0.005);
      // at 0.05 stop the noise of the background itself reaches white; bins are a thousandth of a stop wide
      expect(Math.abs(pixels - result.clippedPixels)).toBeLessThanOrEqual(0.05 * result.clippedPixels + 5);
    });
  }
}
