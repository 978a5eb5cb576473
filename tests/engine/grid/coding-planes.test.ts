import { expect, test } from 'vitest';
import type { CellChannels } from '../../../src/engine/grid/cell-grid.ts';
import { beyondRounding, cellCodes, codingPlanes, planesOf } from '../../../src/engine/grid/coding-planes.ts';
import { multiplyMatrix3 } from '../../../src/engine/numeric/matrix3.ts';
import { expectWithin } from '../../expect-within.ts';
import { decodeSrgb, encodeSrgb } from '../../synthetic/code-thresholds.ts';

const all = (value: number): CellChannels => ({
  red: Float64Array.of(value),
  green: Float64Array.of(value),
  blue: Float64Array.of(value),
});

const JPEG = { jpegDcSteps: { lumaCodes: 0.4, chromaCodes: 0.4, chromaBlockPx: 8 } };

test('codingPlanes of a JPEG turn grey into luma alone, and back into what they came from', () => {
  const { toPlanes, toRgb } = codingPlanes(JPEG);
  const [luma, cb, cr] = planesOf(all(100), toPlanes);
  expectWithin(luma[0]!, 100, 1e-9);
  expectWithin(cb[0]!, 0, 1e-9);
  expectWithin(cr[0]!, 0, 1e-9);
  multiplyMatrix3(toRgb, toPlanes).forEach((value, i) => {
    expectWithin(value, i % 4 === 0 ? 1 : 0, 1e-12);
  });
  // R = Y + 1.402 Cr and B = Y + 1.772 Cb (ITU-T T.871, clause 7)
  expectWithin(toRgb[2], 1.402, 1e-9);
  expectWithin(toRgb[7], 1.772, 1e-9);
});

test('codingPlanes of any other file are red, green and blue themselves', () => {
  const values = { red: Float64Array.of(1), green: Float64Array.of(2), blue: Float64Array.of(3) };
  expect(planesOf(values, codingPlanes({ jpegDcSteps: null }).toPlanes).map(([value]) => value)).toEqual([
    1, 2, 3,
  ]);
});

test('cellCodes finds the code between codes that light lies at, and the light of one step there', () => {
  const lightAtCode = Float64Array.from({ length: 256 }, (_, code) => decodeSrgb(code / 255));
  const tables = { red: lightAtCode, green: lightAtCode, blue: lightAtCode };
  for (const code of [0.25, 17.5, 100.125, 254.75]) {
    const read = cellCodes(all(decodeSrgb(code / 255)), tables);
    expectWithin(read.code.green[0]!, code, 0.01);
    const here = Math.floor(code);
    expectWithin(read.step.red[0]!, lightAtCode[here + 1]! - lightAtCode[here]!, 1e-15);
  }
  expectWithin(cellCodes(all(0.5), tables).code.blue[0]!, 255 * encodeSrgb(0.5), 0.01);
  const gap = cellCodes(all(Number.NaN), tables);
  expect([gap.code.red[0], gap.step.red[0]]).toEqual([Number.NaN, Number.NaN]);
});

test('beyondRounding(variance) takes off the twelfth that rounding itself adds', () => {
  expectWithin(beyondRounding(2), 2 - 1 / 12, 1e-12);
  expect(beyondRounding(0.05)).toBe(0); // less than rounding alone would give
});
