import { expect, test } from 'vitest';
import { correctLight } from '../../../src/engine/correct/correct-light.ts';
import { makeProfile } from '../../../src/engine/profile/make-profile.ts';
import { toPng } from '../../synthetic/encode.ts';
import type { KnownField } from '../../synthetic/known-field.ts';
import { renderFrame } from '../../synthetic/render-frame.ts';
import { frameOfCodes } from '../grid/frame-of-codes.ts';
import { measureBytes } from '../known-frames.ts';
import { blocksOfLight } from './blocks-of-light.ts';
import { lightOf, srgbOut } from './shot-scene.ts';

/** A slope of light down to the right, of colour to the left, and a cast all over. */
const slopes: KnownField = (x, y) => [
  0.62 * 2 ** (-0.5 * x - 0.3 * y + 0.1 * (1 - x)),
  0.6 * 2 ** (-0.5 * x - 0.3 * y),
  0.5 * 2 ** (-0.5 * x - 0.3 * y - 0.1 * (1 - x)),
];

for (const reference of ['mean', 'brightest', 'darkest'] as const) {
  test(`the straight ramp takes a slope of light and of colour out, to the ${reference} light`, async () => {
    const rendered = renderFrame(slopes, {
      ...{ widthPx: 480, heightPx: 320, bits: 16, curve: 'srgb', electronsAtFull: 30_000, seed: 4 },
    });
    const measured = await measureBytes(toPng(rendered));
    const profile = makeProfile({ ...measured, reading: measured.measurement }, { reference });
    const out = srgbOut(16);
    const frame = frameOfCodes(rendered);
    const ramp = lightOf(correctLight(frame, profile, { treat: 'ramp-only' }, out).samples, out);
    const whole = lightOf(correctLight(frame, profile, {}, out).samples, out);
    const left = blocksOfLight(ramp, 480, () => true, 40);
    const mean = (light: Float64Array) => light.reduce((sum, value) => sum + value, 0) / light.length;
    const levelEv = Math.log2(mean(ramp) / mean(whole));
    console.log(
      `measured: ${reference}: the ramp leaves ${left.ev.toFixed(4)} EV and ${left.uv.toFixed(5)} u′v′, ${levelEv.toFixed(4)} EV from the level of the whole correction`,
    );
    expect(left.ev).toBeLessThanOrEqual(0.02);
    expect(left.uv).toBeLessThanOrEqual(0.001);
    expect(Math.abs(levelEv)).toBeLessThanOrEqual(0.01);
  });
}
