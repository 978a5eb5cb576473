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
  /** Codes that a cell reads off by, whatever the phase. */
  readonly offset: Float64Array;
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
  readonly columns: number;
  readonly rows: number;
  readonly step: CellChannels;
}

const NARROWEST_SPAN_CODES = 0.02;
/** With this much noise, in codes², rounding leaves under a thousandth of a code. */
const DITHERED_VARIANCE = 0.32;
/** Less than this can't be told from none: bands of codes scatter a little by themselves. */
const LEAST_DITHER_VARIANCE = 0.03;
/** Range within which the stand-in for the truth knows how the channels' codes lie to one another. */
const SHARED_PHASE_CODES = 0.5;
/** Side of a JPEG's blocks of luma. */
const LUMA_BLOCK_PX = 8;

/** Change of a plane's codes to the next cell, to the right and down. */
function codeSlopes(codes: Float64Array, columns: number, rows: number) {
  return {
    right: codes.map((_, i) => cellSlope(codes, i, 1, i % columns, columns)),
    down: codes.map((_, i) => cellSlope(codes, i, columns, Math.floor(i / columns), rows)),
  };
}

/**
 * Codes at the middle of the block that a cell's centre lies in. Cells smaller than a JPEG's block share its mean, and a
 * slope whose codes go in step with the blocks leaves the same error in each of them.
 */
function codesOfBlocks(
  codes: Float64Array,
  slopes: ReturnType<typeof codeSlopes>,
  { columns, cellWidthPx, cellHeightPx }: CellGrid,
  blockPx: number,
): Float64Array {
  /** From a cell's centre to its block's, in cells. */
  const toBlock = (cell: number, sidePx: number) => {
    const centrePx = (cell + 0.5) * sidePx;
    return ((Math.floor(centrePx / blockPx) + 0.5) * blockPx - centrePx) / sidePx;
  };
  return codes.map(
    (code, i) =>
      code +
      slopes.right[i]! * toBlock(i % columns, cellWidthPx) +
      slopes.down[i]! * toBlock(Math.floor(i / columns), cellHeightPx),
  );
}

/**
 * Chroma of half the resolution is interpolated between the middles of its blocks; outside the outermost middles it stays
 * flat, so that cells along the rim read what lies half a block further in.
 */
function flatRim(codes: Float64Array, held: Float64Array, grid: CellGrid, blockPx: number): Float64Array {
  const { columns, rows, cellWidthPx, cellHeightPx } = grid;
  const isRim = (cell: number, count: number, sidePx: number) =>
    Math.min(cell + 0.5, count - cell - 0.5) * sidePx < blockPx / 2;
  return codes.map((code, i) => {
    const rim =
      isRim(i % columns, columns, cellWidthPx) || isRim(Math.floor(i / columns), rows, cellHeightPx);
    return rim && blockPx > LUMA_BLOCK_PX ? held[i]! - code : 0;
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
  const plane = (
    codes: Float64Array,
    noise: number,
    firstStepCodes: number,
    blockPx: number,
    to: readonly [number, number, number],
  ): RoundedPlane => {
    const slopes = codeSlopes(codes, columns, rows);
    // Inside a JPEG's block a gentle slope is not coded at all: what a cell spans is what the blocks' means in it span.
    const share = steps ? Math.max(0, 1 - blockPx / Math.min(grid.cellWidthPx, grid.cellHeightPx)) : 1;
    const held = steps ? codesOfBlocks(codes, slopes, grid, blockPx) : codes;
    return {
      toRgb: to,
      codes: held,
      spans: codes.map((_, i) =>
        Math.max(NARROWEST_SPAN_CODES, share * Math.hypot(slopes.right[i]!, slopes.down[i]!)),
      ),
      offset: flatRim(codes, held, grid, steps ? blockPx : 0),
      place: placesOf(held),
      stairs: grid.refinedByBlocks ? plainStaircase(firstStepCodes) : staircase(noise, firstStepCodes),
    };
  };
  const isGrey = light.red.every((r, i) => Number.isNaN(r) || (r === light.green[i] && r === light.blue[i]));
  if (isGrey) {
    const planes = [plane(code.green, dither[0]!, steps?.lumaCodes ?? 0, LUMA_BLOCK_PX, [1, 1, 1])];
    return { planes, roundedAgain: false, isLumaChroma: false, columns, rows, step };
  }
  const coded = planesOf(code, toPlanes);
  const to = (p: number) => [toRgb[p]!, toRgb[p + 3]!, toRgb[p + 6]!] as const;
  const planes = coded
    .map((codes, p) => {
      const firstStepCodes = steps ? (p === 0 ? steps.lumaCodes : steps.chromaCodes) : 0;
      const nothingLeft = !steps && dither[p]! > DITHERED_VARIANCE;
      const blockPx = p === 0 || !steps ? LUMA_BLOCK_PX : steps.chromaBlockPx;
      return nothingLeft ? null : plane(codes, dither[p]!, firstStepCodes, blockPx, to(p));
    })
    .filter((made) => made !== null);
  return {
    planes,
    roundedAgain: steps !== null && !grid.refinedByBlocks,
    isLumaChroma: steps !== null,
    columns,
    rows,
    step,
  };
}

/**
 * What an encoder's own rounding of pixels to whole codes of luma and chroma leaves over a whole frame: half codes go one
 * way, and how often they come depends on the colour. Standard deviations in codes, of a constant and of a slope across
 * the frame, measured on 30 known fields through libjpeg's encoder; another encoder may do better or worse.
 */
const ENCODER_DRIFT_CODES = [
  { constant: 0.02, slope: 0.04 },
  { constant: 0.055, slope: 0.085 },
  { constant: 0.055, slope: 0.085 },
] as const;

/** Nearly normal, of variance 1. */
const nearlyNormal = (uniform: () => number) => 2 * (uniform() + uniform() + uniform() - 1.5);

/** Adds one draw of the rounding errors, each plane's phase by `uniform`, to linear light. Modifies `light`. */
export function addRoundingErrors(errors: RoundingErrors, uniform: () => number, light: CellChannels): void {
  const { planes, step, roundedAgain, isLumaChroma, columns, rows } = errors;
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
  planes.forEach(({ toRgb, codes, spans, offset, place, stairs }, p) => {
    const [toRed, toGreen, toBlue] = toRgb;
    const stretch = isLumaChroma ? uniform() - 0.5 : commonStretch;
    const drift = isLumaChroma ? ENCODER_DRIFT_CODES[p]! : { constant: 0, slope: 0 };
    const constant = drift.constant * nearlyNormal(uniform);
    const right = (drift.slope * nearlyNormal(uniform)) / columns;
    const down = (drift.slope * nearlyNormal(uniform)) / rows;
    for (let row = 0, i = 0; row < rows; row++) {
      const level = constant + down * (row - rows / 2) - (right * columns) / 2;
      for (let column = 0; column < columns; column++, i++) {
        const rounding = meanError(stairs, codes[i]! + phases[p]! + stretch * place[i]!, spans[i]!);
        const error = rounding + offset[i]! + level + right * column;
        if (Number.isNaN(error)) continue;
        light.red[i]! += toRed * error * step.red[i]!;
        light.green[i]! += toGreen * error * step.green[i]!;
        light.blue[i]! += toBlue * error * step.blue[i]!;
      }
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
