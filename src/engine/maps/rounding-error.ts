import type { CellChannels, CellGrid } from '../grid/cell-grid.ts';
import { beyondRounding, cellCodes, codingPlanes, planesOf } from '../grid/coding-planes.ts';
import { cellSlope } from '../grid/scatter-without-slope.ts';
import { quantile } from '../numeric/quantile.ts';
import { meanError, plainStaircase, type Staircase, staircase } from './staircase.ts';

/** One plane of codes that were rounded with one phase, unknown but the same for all cells. */
interface RoundedPlane {
  /** What one code of this plane is in codes of red, green and blue. */
  readonly toRgb: readonly [number, number, number];
  readonly codes: Float64Array;
  /** Codes that a cell spans. */
  readonly spans: Float64Array;
  /** Where each cell's code lies among all, −½ (lowest) to ½. */
  readonly place: Float64Array;
  readonly stairs: Staircase;
}

/** All roundings that a file's codes went through, and the light of one code at each cell. */
export interface RoundingErrors {
  readonly planes: readonly RoundedPlane[];
  /** Whether R, G and B were rounded again after whole codes of luma and chroma (planes 1 and 2 are Cb and Cr). */
  readonly roundedAgain: boolean;
  /** Whether the planes are a JPEG's luma and chroma, which share no phase. */
  readonly isLumaChroma: boolean;
  readonly step: CellChannels;
}

const NARROWEST_SPAN_CODES = 0.02;
/** With this much noise, in codes², rounding leaves under a thousandth of a code. */
const DITHERED_VARIANCE = 0.32;
/** Less than this can't be told from none: bands of codes scatter a little by themselves. */
const LEAST_DITHER_VARIANCE = 0.03;
/** Range within which the stand-in for the truth knows how the channels' codes lie to one another. */
const SHARED_PHASE_CODES = 0.5;
/** Side of a JPEG's blocks; chroma at half resolution has blocks of twice that, which smooth interpolation blends. */
const BLOCK_PX = 8;

/**
 * Codes that the means in a cell spread over. Inside one of a JPEG's blocks a gentle slope is not coded at all, so there the
 * spread is that of the blocks' means.
 */
function spansOf(
  codes: Float64Array,
  columns: number,
  rows: number,
  shareBetweenBlocks: number,
): Float64Array {
  return codes.map((_, i) => {
    const across = cellSlope(codes, i, 1, i % columns, columns);
    const down = cellSlope(codes, i, columns, Math.floor(i / columns), rows);
    return Math.max(NARROWEST_SPAN_CODES, shareBetweenBlocks * Math.hypot(across, down));
  });
}

function placesOf(codes: Float64Array): Float64Array {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (const code of codes) {
    if (code < low) low = code;
    if (code > high) high = code;
  }
  return codes.map((code) => (high > low ? (code - low) / (high - low) - 0.5 : 0));
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
  // A JPEG's planes have noise of their own; otherwise a plane is a channel.
  const pixelVariance = steps
    ? (grid.jpegPixelVariance ?? [0, 0, 0])
    : [pixelSigma.red, pixelSigma.green, pixelSigma.blue].map((sigma, p) => {
        const inCodes = [step.red, step.green, step.blue][p]!;
        return quantile(
          sigma.map((value, i) => (value / inCodes[i]!) ** 2),
          0.5,
        );
      });
  const dither = pixelVariance.map((variance) => {
    const beyond = beyondRounding(variance);
    return beyond > LEAST_DITHER_VARIANCE ? beyond : 0;
  });
  const shareBetweenBlocks = steps
    ? Math.max(0, 1 - BLOCK_PX / Math.min(grid.cellWidthPx, grid.cellHeightPx))
    : 1;
  const plane = (
    codes: Float64Array,
    noise: number,
    firstStepCodes: number,
    to: readonly [number, number, number],
  ): RoundedPlane => ({
    toRgb: to,
    codes,
    spans: spansOf(codes, columns, rows, shareBetweenBlocks),
    place: placesOf(codes),
    stairs: grid.refinedByBlocks ? plainStaircase(firstStepCodes) : staircase(noise, firstStepCodes),
  });
  const isGrey = light.red.every((r, i) => Number.isNaN(r) || (r === light.green[i] && r === light.blue[i]));
  if (isGrey) {
    const planes = [plane(code.green, dither[0]!, steps?.lumaCodes ?? 0, [1, 1, 1])];
    return { planes, roundedAgain: false, isLumaChroma: false, step };
  }
  const coded = planesOf(code, toPlanes);
  const to = (p: number) => [toRgb[p]!, toRgb[p + 3]!, toRgb[p + 6]!] as const;
  const planes = coded
    .map((codes, p) => {
      const firstStepCodes = steps ? (p === 0 ? steps.lumaCodes : steps.chromaCodes) : 0;
      const nothingLeft = !steps && dither[p]! > DITHERED_VARIANCE;
      return nothingLeft ? null : plane(codes, dither[p]!, firstStepCodes, to(p));
    })
    .filter((made) => made !== null);
  return {
    planes,
    roundedAgain: steps !== null && !grid.refinedByBlocks,
    isLumaChroma: steps !== null,
    step,
  };
}

/** Adds one draw of the rounding errors, each plane's phase by `uniform`, to linear light. Modifies `light`. */
export function addRoundingErrors(errors: RoundingErrors, uniform: () => number, light: CellChannels): void {
  const { planes, step, roundedAgain, isLumaChroma } = errors;
  const count = step.red.length;
  // How red, green and blue lie to one another is nearly known, so they share a phase but for a quarter code each way: a
  // neutral grey rounds its three channels alike. Luma and chroma have nothing in common.
  const common = uniform();
  // A stand-in fitted to rounded codes spans too nearly a whole number of them; its true span is open by a code.
  const commonStretch = uniform() - 0.5;
  const phases = planes.map(({ stairs }) =>
    isLumaChroma
      ? stairs.periodCodes * uniform()
      : stairs.periodCodes * common + SHARED_PHASE_CODES * (uniform() - 0.5),
  );
  planes.forEach(({ toRgb, codes, spans, place, stairs }, p) => {
    const [toRed, toGreen, toBlue] = toRgb;
    const stretch = isLumaChroma ? uniform() - 0.5 : commonStretch;
    for (let i = 0; i < count; i++) {
      const error = meanError(stairs, codes[i]! + phases[p]! + stretch * place[i]!, spans[i]!);
      if (Number.isNaN(error)) continue;
      light.red[i]! += toRed * error * step.red[i]!;
      light.green[i]! += toGreen * error * step.green[i]!;
      light.blue[i]! += toBlue * error * step.blue[i]!;
    }
  });
  if (!roundedAgain) return;
  const [, cb, cr] = planes as readonly [RoundedPlane, RoundedPlane, RoundedPlane];
  const [cbPhase, crPhase] = [phases[1]! % 1, phases[2]! % 1];
  const fraction = (code: number) => Math.round(code) - code;
  for (let i = 0; i < count; i++) {
    const wholeCb = Math.round(cb.codes[i]! + cbPhase);
    const wholeCr = Math.round(cr.codes[i]! + crPhase);
    if (Number.isNaN(wholeCb + wholeCr)) continue;
    light.red[i]! += fraction(cr.toRgb[0] * wholeCr) * step.red[i]!;
    light.green[i]! += fraction(cb.toRgb[1] * wholeCb + cr.toRgb[1] * wholeCr) * step.green[i]!;
    light.blue[i]! += fraction(cb.toRgb[2] * wholeCb) * step.blue[i]!;
  }
}
