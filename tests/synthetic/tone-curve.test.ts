import { expect, test } from 'vitest';
import { expectWithin } from '../expect-within.ts';
import { decodeSrgb, encodeSrgb } from './code-thresholds.ts';
import { renderFrame } from './render-frame.ts';
import { toneCurve } from './tone-curve.ts';

test('toneCurve(contrast) keeps black, white and middle grey, and has that slope there', () => {
  for (const contrast of [0.8, 1, 1.3, 1.6]) {
    const tone = toneCurve(contrast);
    expectWithin(tone(0), 0, 0);
    expectWithin(tone(1), 1, 0);
    expectWithin(tone(0.18), 0.18, 1e-9);
    const value = encodeSrgb(0.18);
    const slope =
      (encodeSrgb(tone(decodeSrgb(value + 1e-5))) - encodeSrgb(tone(decodeSrgb(value - 1e-5)))) / 2e-5;
    expectWithin(slope, contrast, 1e-6);
  }
});

test('toneCurve(contrast) rises all the way, and flattens what is bright', () => {
  const tone = toneCurve(1.4);
  for (let i = 1; i <= 500; i++) expect(tone(i / 500)).toBeGreaterThan(tone((i - 1) / 500));
  expect(Math.log2(tone(0.8) / tone(0.6))).toBeLessThan(0.9 * Math.log2(0.8 / 0.6));
  for (const light of [0.01, 0.3, 0.9]) expectWithin(toneCurve(1)(light), light, 1e-12);
});

test('renderFrame(field, { tone }) codes what the curve makes of the light', () => {
  const raster = { widthPx: 40, heightPx: 30, bits: 8, curve: 'srgb', seed: 1 } as const;
  const tone = toneCurve(1.5);
  for (const electronsAtFull of [null, 1e9]) {
    const frame = renderFrame(() => [0.1, 0.18, 0.6], { ...raster, electronsAtFull, tone });
    const codes = [0.1, 0.18, 0.6].map((light) => Math.round(255 * encodeSrgb(tone(light))));
    expect([...frame.samples.slice(0, 3)]).toEqual(codes);
  }
});
