import type { CellChannels, CellGrid } from '../grid/cell-grid.ts';
import { quantile } from '../numeric/quantile.ts';
import { cellCodes, codingPlanes, ditherOfPlanes, planesOf } from './coding-planes.ts';
import { cellSlope } from './scatter-without-slope.ts';
import { meanError, type Staircase, staircase } from './staircase.ts';

/** One plane of codes that were rounded with one phase, unknown but the same for all cells. */
interface RoundedPlane {
  /** What one code of this plane is in codes of red, green and blue. */
  readonly toRgb: readonly [number, number, number];
  readonly codes: Float64Array;
  /** Codes that a cell spans. */
  readonly spans: Float64Array;
  readonly stairs: Staircase;
  /** Channels that are rounded again by what this plane's whole code leaves behind the point (a JPEG's R, G, B). */
  readonly againRgb: readonly [boolean, boolean, boolean];
}

/** All roundings that a file's codes went through, and the light of one code at each cell. */
export interface RoundingErrors {
  readonly planes: readonly RoundedPlane[];
  readonly step: CellChannels;
}

const NARROWEST_SPAN_CODES = 0.02;
const NO_CHANNEL = [false, false, false] as const;
/** With this much noise, in codes², rounding leaves under a thousandth of a code. */
const DITHERED_VARIANCE = 0.32;

function spansOf(codes: Float64Array, columns: number, rows: number): Float64Array {
  return codes.map((_, i) => {
    const across = cellSlope(codes, i, 1, i % columns, columns);
    const down = cellSlope(codes, i, columns, Math.floor(i / columns), rows);
    return Math.max(NARROWEST_SPAN_CODES, Math.hypot(across, down));
  });
}

/**
 * Prepares the rounding errors of a grid's cells. `smooth` is the linear light that stands in for the truth,
 * `pixelSigma` the scatter of single pixels without the share of slopes. A JPEG is rounded in luma and chroma, in two
 * steps, and then in R, G and B, where what there is to round comes from its chroma alone.
 */
export function roundingErrors(
  grid: CellGrid,
  smooth: CellChannels,
  pixelSigma: CellChannels,
): RoundingErrors {
  const { columns, rows, jpegDcSteps: steps, light } = grid;
  const { toPlanes, toRgb } = codingPlanes(grid);
  const { code, step } = cellCodes(smooth, grid.lightAtCode);
  const dither = ditherOfPlanes(pixelSigma, step, steps !== null).map((variance) => quantile(variance, 0.5));
  const plane = (
    codes: Float64Array,
    noise: number,
    firstStepCodes: number,
    to: readonly [number, number, number],
    againRgb: readonly [boolean, boolean, boolean] = NO_CHANNEL,
  ): RoundedPlane => ({
    toRgb: to,
    codes,
    spans: spansOf(codes, columns, rows),
    stairs: staircase(noise, firstStepCodes),
    againRgb,
  });
  const isGrey = light.red.every((r, i) => Number.isNaN(r) || (r === light.green[i] && r === light.blue[i]));
  if (isGrey) return { planes: [plane(code.green, dither[0]!, steps?.lumaCodes ?? 0, [1, 1, 1])], step };
  const coded = planesOf(code, toPlanes);
  const to = (p: number) => [toRgb[p]!, toRgb[p + 3]!, toRgb[p + 6]!] as const;
  if (!steps) {
    const planes = coded
      .map((codes, p) => (dither[p]! < DITHERED_VARIANCE ? plane(codes, dither[p]!, 0, to(p)) : null))
      .filter((made) => made !== null);
    return { planes, step };
  }
  return {
    planes: [
      plane(coded[0], dither[0]!, steps.lumaCodes, to(0)),
      plane(coded[1], dither[1]!, steps.chromaCodes, to(1), [false, true, true]),
      plane(coded[2], dither[2]!, steps.chromaCodes, to(2), [true, false, false]),
    ],
    step,
  };
}

/** Length of the tables of what is left behind the point; longer than any range of chroma codes. */
const FRACTIONS = 512;

/** Adds one draw of the rounding errors, each plane's phase by `uniform`, to linear light. Modifies `light`. */
export function addRoundingErrors(
  { planes, step }: RoundingErrors,
  uniform: () => number,
  light: CellChannels,
): void {
  const count = step.red.length;
  for (const { toRgb, codes, spans, stairs, againRgb } of planes) {
    const phase = stairs.periodCodes * uniform();
    const fractions = againRgb.map((again) =>
      again ? Float64Array.from({ length: FRACTIONS }, () => uniform() - 0.5) : null,
    );
    const [redAgain, greenAgain, blueAgain] = fractions;
    const [toRed, toGreen, toBlue] = toRgb;
    for (let i = 0; i < count; i++) {
      const error = meanError(stairs, codes[i]! + phase, spans[i]!);
      if (Number.isNaN(error)) continue;
      const whole = Math.round(codes[i]! + phase) & (FRACTIONS - 1);
      light.red[i]! += (toRed * error + (redAgain?.[whole] ?? 0)) * step.red[i]!;
      light.green[i]! += (toGreen * error + (greenAgain?.[whole] ?? 0)) * step.green[i]!;
      light.blue[i]! += (toBlue * error + (blueAgain?.[whole] ?? 0)) * step.blue[i]!;
    }
  }
}
