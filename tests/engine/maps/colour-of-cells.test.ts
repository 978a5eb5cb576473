import { expect, test } from 'vitest';
import { colourOfCells, emptyColourMap, luminanceOfCells } from '../../../src/engine/maps/colour-of-cells.ts';
import type { Matrix3 } from '../../../src/engine/numeric/matrix3.ts';

/** Linear sRGB to XYZ. Source: IEC 61966-2-1. */
const TO_XYZ: Matrix3 = [0.4124, 0.3576, 0.1805, 0.2126, 0.7152, 0.0722, 0.0193, 0.1192, 0.9505];

test('luminance alone is that of the colours, and missing where they are', () => {
  const cells = {
    red: Float64Array.of(1, 0.25, 0, Number.NaN, -1, 0.5, 2),
    green: Float64Array.of(1, 0.5, 0, 0.5, 0.1, 0.5, 0.1),
    blue: Float64Array.of(1, 0.125, 0, 0.5, 0.1, Number.NaN, -6),
  };
  const colours = emptyColourMap(7);
  const alone = new Float64Array(7);
  colourOfCells(cells, TO_XYZ, colours);
  luminanceOfCells(cells, TO_XYZ, alone);
  expect([...alone]).toEqual([...colours.luminance]);
  expect([...alone].map(Number.isNaN)).toEqual([false, false, true, true, true, true, true]);
});
