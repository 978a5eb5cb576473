import { expect, test } from 'vitest';
import { measureFrame } from '../../src/engine/measure-frame.ts';
import { nodePlatform } from '../node-platform.ts';
import { toJpeg } from '../synthetic/encode.ts';
import { type KnownField, randomField } from '../synthetic/known-field.ts';
import { renderFrame } from '../synthetic/render-frame.ts';
import { toneCurve } from '../synthetic/tone-curve.ts';
import { bracketRead, MARKED } from './response/bracket-of.ts';

const tone = toneCurve(1.8);
const lit = (seed: number, peak: number) =>
  randomField(seed, { family: 'quadratic', spreadEv: 0.5, peak }).field;

/** Of a frame without the curve, by sRGB; of one with it, by the response. */
async function falloffOf(field: KnownField, styled: boolean, options = {}) {
  const raster = { widthPx: 480, heightPx: 320, bits: 8, curve: 'srgb', seed: 4 } as const;
  const frame = renderFrame(field, { ...raster, electronsAtFull: 30_000, ...(styled && { tone }) });
  const bytes = await toJpeg(frame, { quality: 95, chroma: '4:4:4', exif: { colourSpace: 1 } });
  return (await measureFrame([{ name: 'blank.jpg', bytes }], options, nodePlatform)).measurement.falloff;
}

test('measureFrame(frame, { response }) widens the ± where the frame is brighter or darker than its bracket', async () => {
  const response = await bracketRead({ field: lit(11, 0.3), tone, marks: MARKED.slice(0, 3) });
  for (const [peak, isBeyond] of [
    [0.2, false],
    [0.5, true],
    [0.8, true],
  ] as const) {
    const { spreadEv: truth } = await falloffOf(lit(7, peak), false);
    const { spreadEv, plusMinusEv } = await falloffOf(lit(7, peak), true, { response });
    console.log(
      `measured: up to ${peak} of white by a bracket up to 0.3: ${(spreadEv - truth).toFixed(3)} EV off, said to be within ± ${plusMinusEv.toFixed(3)}`,
    );
    expect(Math.abs(spreadEv - truth)).toBeLessThan(plusMinusEv);
    expect(plusMinusEv > 0.05, `${peak}`).toBe(isBeyond);
  }
});
