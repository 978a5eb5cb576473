import type { CellChannels, CellGrid } from '../grid/cell-grid.ts';
import { invertMatrix3, type Matrix3, transformVector3 } from '../numeric/matrix3.ts';

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

function codesOf(light: Float64Array, lightAtCode: Float64Array): { code: Float64Array; step: Float64Array } {
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

/**
 * Variance of single pixels before they were rounded, in codes² of each plane: what dithers the rounding. `pixelSigma` is
 * the scatter in linear light without the share of slopes. A JPEG's planes are solved from the three channels' variances,
 * their errors taken as independent.
 */
export function ditherOfPlanes(pixelSigma: CellChannels, step: CellChannels, together: boolean): PlaneValues {
  const inCodes = (sigma: Float64Array, steps: Float64Array) =>
    sigma.map((value, i) => (value / steps[i]!) ** 2);
  const r = inCodes(pixelSigma.red, step.red);
  const g = inCodes(pixelSigma.green, step.green);
  const b = inCodes(pixelSigma.blue, step.blue);
  const beyondRounding = (variance: number) => Math.max(0, variance - ROUNDING_VARIANCE);
  if (!together) return [r.map(beyondRounding), g.map(beyondRounding), b.map(beyondRounding)];
  const { toRgb } = LUMA_CHROMA;
  const square = toRgb.map((value) => value * value) as unknown as Matrix3;
  // R − G and B − G leave two equations in Cb and Cr; luma is what remains of G.
  const [rb, rr] = [square[1] - square[4], square[2] - square[5]];
  const [bb, br] = [square[7] - square[4], square[8] - square[5]];
  const determinant = rb * br - rr * bb;
  const planes: PlaneValues = [
    new Float64Array(r.length),
    new Float64Array(r.length),
    new Float64Array(r.length),
  ];
  for (let i = 0; i < r.length; i++) {
    const red = r[i]! - g[i]!;
    const blue = b[i]! - g[i]!;
    const cb = Math.max(0, (red * br - rr * blue) / determinant);
    const cr = Math.max(0, (rb * blue - red * bb) / determinant);
    planes[0][i] = beyondRounding(g[i]! - square[4] * cb - square[5] * cr);
    planes[1][i] = beyondRounding(cb);
    planes[2][i] = beyondRounding(cr);
  }
  return planes;
}
