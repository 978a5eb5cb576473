import { invertMatrix3, type Matrix3, transformVector3 } from '../numeric/matrix3.ts';
import type { CellChannels, CellGrid } from './cell-grid.ts';

/**
 * The planes in which a file's codes were rounded: R, G and B themselves, or a JPEG's luma and chroma.
 * `toPlanes` and `toRgb` act on codes (differences of codes where an offset would matter).
 */
export interface CodingPlanes {
  readonly toPlanes: Matrix3;
  readonly toRgb: Matrix3;
}

const SEPARATE: CodingPlanes = {
  toPlanes: [1, 0, 0, 0, 1, 0, 0, 0, 1],
  toRgb: [1, 0, 0, 0, 1, 0, 0, 0, 1],
};

/** Source: ITU-T T.871 (JFIF), clause 7: Y, Cb, Cr from R, G, B. */
const LUMA_CHROMA_FROM_RGB: Matrix3 = [
  0.299,
  0.587,
  0.114,
  -0.299 / 1.772,
  -0.587 / 1.772,
  0.886 / 1.772,
  0.701 / 1.402,
  -0.587 / 1.402,
  -0.114 / 1.402,
];

const LUMA_CHROMA: CodingPlanes = {
  toPlanes: LUMA_CHROMA_FROM_RGB,
  toRgb: invertMatrix3(LUMA_CHROMA_FROM_RGB),
};

export function codingPlanes(grid: Pick<CellGrid, 'jpegDcSteps'>): CodingPlanes {
  return grid.jpegDcSteps ? LUMA_CHROMA : SEPARATE;
}

/** Continuous codes of cells and the light of one code step there, per channel. */
export interface CellCodes {
  readonly code: CellChannels;
  readonly step: CellChannels;
}

/** Continuous codes of one channel's light and the light of one code step there; NaN where there is no light. */
export function codesOf(
  light: Float64Array,
  lightAtCode: Float64Array,
): { code: Float64Array; step: Float64Array } {
  const code = new Float64Array(light.length);
  const step = new Float64Array(light.length);
  for (let i = 0; i < light.length; i++) {
    let low = 0;
    let high = lightAtCode.length - 1;
    while (high - low > 1) {
      const middle = (low + high) >> 1;
      if (lightAtCode[middle]! <= light[i]!) low = middle;
      else high = middle;
    }
    step[i] = lightAtCode[high]! - lightAtCode[low]!;
    code[i] = step[i]! > 0 ? low + (light[i]! - lightAtCode[low]!) / step[i]! : low;
    if (Number.isNaN(light[i]!)) code[i] = step[i] = Number.NaN;
  }
  return { code, step };
}

export function cellCodes(light: CellChannels, lightAtCode: CellGrid['lightAtCode']): CellCodes {
  const red = codesOf(light.red, lightAtCode.red);
  const green = codesOf(light.green, lightAtCode.green);
  const blue = codesOf(light.blue, lightAtCode.blue);
  return {
    code: { red: red.code, green: green.code, blue: blue.code },
    step: { red: red.step, green: green.step, blue: blue.step },
  };
}

/** One value a cell for each of three planes. */
export type PlaneValues = readonly [Float64Array, Float64Array, Float64Array];

export function planesOf({ red, green, blue }: CellChannels, matrix: Matrix3): PlaneValues {
  const planes: PlaneValues = [
    new Float64Array(red.length),
    new Float64Array(red.length),
    new Float64Array(red.length),
  ];
  for (let i = 0; i < red.length; i++) {
    const values = transformVector3(matrix, [red[i]!, green[i]!, blue[i]!]);
    for (let p = 0; p < 3; p++) planes[p]![i] = values[p]!;
  }
  return planes;
}

/** Variance that rounding to whole codes itself adds to single pixels, in codes². */
const ROUNDING_VARIANCE = 1 / 12;

/** Variance of single pixels before they were rounded, in codes²; `variance` includes the rounding's own. */
export function beyondRounding(variance: number): number {
  return Math.max(0, variance - ROUNDING_VARIANCE);
}
