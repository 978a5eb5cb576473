import { expect, test } from 'vitest';
import { correctLight } from '../../../src/engine/correct/correct-light.ts';
import { rampLattice } from '../../../src/engine/correct/ramp-lattice.ts';
import { makeProfile } from '../../../src/engine/profile/make-profile.ts';
import { toPng } from '../../synthetic/encode.ts';
import type { KnownField } from '../../synthetic/known-field.ts';
import { renderFrame } from '../../synthetic/render-frame.ts';
import { frameOfCodes } from '../grid/frame-of-codes.ts';
import { measureBytes } from '../known-frames.ts';
import { blocksOfLight } from './blocks-of-light.ts';
import { latticeOf, profileOf } from './profile-of.ts';
import { lightOf, srgbOut } from './shot-scene.ts';

/** A slope of light down to the right, one of colour along it, and a cast all over. */
const slopes: KnownField = (x, y) => [
  0.62 * 2 ** (-0.55 * x - 0.33 * y),
  0.6 * 2 ** (-0.5 * x - 0.3 * y),
  0.5 * 2 ** (-0.45 * x - 0.27 * y),
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

test('rampLattice(profile) is the one ramp of the gradient, wherever colour changes most', () => {
  const toXyz = frameOfCodes(
    renderFrame(slopes, {
      widthPx: 12,
      heightPx: 8,
      bits: 16,
      curve: 'srgb',
      electronsAtFull: 30_000,
      seed: 1,
    }),
  ).toXyz;
  const plain = profileOf(latticeOf(2, 2, () => [0, 0, 0]));
  const angleDeg = 30;
  const gradient = { ...plain.gradient, angleDeg, ev: 0.5, mired: 20, duv: 0.001 };
  const tintGradient = { angleDeg: 140, deltaUv: 0.01, mired: 40, duv: -0.002 };
  const ramp = rampLattice({ ...plain, gradient, tintGradient }, toXyz);
  expect(rampLattice({ ...plain, gradient }, toXyz)).toEqual(ramp);
  const slope = (nodes: readonly number[]) => ({
    x: nodes[1]! - nodes[0]!,
    y: (nodes[2]! - nodes[0]!) * 1.5,
  });
  const along = (nodes: readonly number[]) => {
    const { x, y } = slope(nodes);
    const reach = Math.cos(Math.PI / 6) + Math.sin(Math.PI / 6) / 1.5;
    return (x * Math.cos(Math.PI / 6) + y * Math.sin(Math.PI / 6)) * reach;
  };
  for (const nodes of [ramp.red, ramp.green, ramp.blue]) {
    const { x, y } = slope(nodes);
    expect((Math.atan2(-y, -x) * 180) / Math.PI).toBeCloseTo(angleDeg, 6); // gains fall where light rises
  }
  // the brighter end is warmer, so that red is taken down more than blue
  expect(along(ramp.red)).toBeLessThan(along(ramp.green));
  expect(along(ramp.green)).toBeLessThan(along(ramp.blue));
  const cooler = rampLattice({ ...plain, gradient: { ...gradient, mired: -20, duv: 0 } }, toXyz);
  expect(along(cooler.red)).toBeGreaterThan(along(cooler.blue));
  const level = { ...plain, tintGradient };
  expect(rampLattice(level, toXyz).red).toEqual([0, 0, 0, 0]);
});
