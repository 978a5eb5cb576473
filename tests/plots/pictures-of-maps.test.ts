import { expect, test } from 'vitest';
import { srgbDecode } from '../../src/engine/colour/srgb-curve.ts';
import { cellMap } from '../../src/plots/cell-map.ts';
import { falloffPicture } from '../../src/plots/falloff-picture.ts';
import { lightnessToGrey } from '../../src/plots/lightness-to-grey.ts';
import { tintPicture } from '../../src/plots/tint-picture.ts';
import { expectWithin } from '../expect-within.ts';
import { readingFixture } from './reading-fixture.ts';

/** L* of a neutral or coloured sRGB pixel (ISO/CIE 11664-4, luminance row of IEC 61966-2-1). */
function lightnessOf([r, g, b]: readonly number[]): number {
  const y = 0.2126 * srgbDecode(r! / 255) + 0.7152 * srgbDecode(g! / 255) + 0.0722 * srgbDecode(b! / 255);
  return y > 216 / 24389 ? 116 * Math.cbrt(y) - 16 : (24389 / 27) * y;
}

test('lightnessToGrey(L*) gives a grey of that L*, within the coding’s half step', () => {
  for (let lightness = 2; lightness <= 100; lightness += 7) {
    const grey = lightnessToGrey(lightness);
    expectWithin(lightnessOf([grey, grey, grey]), lightness, 0.35);
  }
});

test('falloffPicture(map) takes equal steps in L* for equal steps in stops, and states its strength', () => {
  const reading = readingFixture({ columns: 11, rows: 1, ev: (x) => -0.1 * (x * 11 - 0.5) });
  const picture = falloffPicture(cellMap(reading.grid, reading.falloff.evMap));
  expect(picture.strengthened).toBe(1);
  const lightness = Array.from({ length: 11 }, (_, i) =>
    lightnessOf([...picture.rgba.slice(i * 4, i * 4 + 3)]),
  );
  for (let i = 1; i < 11; i++) expectWithin(lightness[i - 1]! - lightness[i]!, 2.4, 0.4);
});

test('falloffPicture(map) leaves holes transparent', () => {
  const picture = falloffPicture({ columns: 2, rows: 1, values: Float64Array.of(0, Number.NaN) });
  expect(picture.rgba[3]).toBe(255);
  expect(picture.rgba[7]).toBe(0);
});

test('tintPicture(reading) gets darker evenly with the tint, whatever its direction', () => {
  for (const angle of [0, 60, 120, 180, 240, 300]) {
    const [du, dv] = [Math.cos((angle * Math.PI) / 180), Math.sin((angle * Math.PI) / 180)];
    const reading = readingFixture({ columns: 7, rows: 1, tint: (x) => [0.003 * x * du, 0.003 * x * dv] });
    const { rgba, strengthened } = tintPicture(reading);
    expect(strengthened).toBe(10);
    for (let i = 0; i < 7; i++) {
      const expected = 86 - 24 * ((0.003 * (i + 0.5)) / 7 / 0.003);
      expectWithin(lightnessOf([...rgba.slice(i * 4, i * 4 + 3)]), expected, 0.6);
    }
  }
});
