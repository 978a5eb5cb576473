import { EngineError } from '../engine-error.ts';
import type { CellChannels, CellGrid } from '../grid/cell-grid.ts';
import { cellCentre } from '../numeric/cell-centre.ts';
import type { Vector3 } from '../numeric/matrix3.ts';

/** The cells that a surface may be fitted to, in the grid's order. One element a usable cell. */
export interface UsableCells {
  readonly count: number;
  /** Number of the cell in the grid. */
  readonly cell: Int32Array;
  /** Of the cell's centre, across the frame. */
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly log2Light: CellChannels;
  readonly log2Luminance: Float64Array;
  /** Standard deviation of `log2Luminance` that noise and a surface's own misfit would give, in stops. */
  readonly sigmaEv: Float64Array;
  /** Luminance of linear red, green and blue. */
  readonly luminanceOf: Vector3;
}

/** A clipped or blocked share above this bends a cell's mean. */
const MOST_LOST_SHARE = 0.03;
/** No smooth family follows real light better than this; keeps cells without noise from ruling the fit. */
const MISFIT_EV = 0.003;
const FEWEST_CELLS = 3;
/** Blocked pixels bend the light of a cell whose brightest channel lies below this share of the codes. */
const DARK_SHARE_OF_CODES = 1 / 32;

/**
 * Takes out the cells without a measurement or light and those with clipped or blocked pixels.
 *
 * @throws {@link EngineError} `too-small` where fewer than three are left; `all-clipped` or `no-light` where most were
 * lost so.
 */
export function usableCells(grid: CellGrid): UsableCells {
  const { light, scatter, pixels, toXyz } = grid;
  const total = grid.columns * grid.rows;
  const luminanceOf: Vector3 = [toXyz[3], toXyz[4], toXyz[5]];
  const [ofRed, ofGreen, ofBlue] = luminanceOf;
  const cell = new Int32Array(total);
  const x = new Float64Array(total);
  const y = new Float64Array(total);
  const log2Light = {
    red: new Float64Array(total),
    green: new Float64Array(total),
    blue: new Float64Array(total),
  };
  const log2Luminance = new Float64Array(total);
  const sigmaEv = new Float64Array(total);
  const codes = grid.lightAtCode.green.length;
  const darkBelow =
    grid.lightAtCode.green[(grid.blackMeanCode ?? 0) + Math.floor(codes * DARK_SHARE_OF_CODES)]!;
  let count = 0;
  let clipped = 0;
  let blocked = 0;
  for (let at = 0; at < total; at++) {
    const red = light.red[at]!;
    const green = light.green[at]!;
    const blue = light.blue[at]!;
    const luminance = ofRed * red + ofGreen * green + ofBlue * blue;
    if (!(red > 0 && green > 0 && blue > 0 && luminance > 0)) continue; // NaN compares false
    if (grid.highlightShare[at]! > MOST_LOST_SHARE) {
      clipped++;
      continue;
    }
    // A deep colour may be black in one channel and well lit in another; that one still tells the light.
    const isDark = Math.max(red, green, blue) < darkBelow;
    if (isDark && grid.shadowShare[at]! > MOST_LOST_SHARE) {
      blocked++;
      continue;
    }
    const pixelScatter = Math.hypot(
      ofRed * scatter.red[at]!,
      ofGreen * scatter.green[at]!,
      ofBlue * scatter.blue[at]!,
    );
    const noiseEv = pixelScatter / (luminance * Math.LN2 * Math.sqrt(pixels[at]!));
    cell[count] = at;
    const centre = cellCentre(grid, at);
    x[count] = centre.x;
    y[count] = centre.y;
    log2Light.red[count] = Math.log2(red);
    log2Light.green[count] = Math.log2(green);
    log2Light.blue[count] = Math.log2(blue);
    log2Luminance[count] = Math.log2(luminance);
    sigmaEv[count] = Number.isFinite(noiseEv) ? Math.hypot(noiseEv, MISFIT_EV) : MISFIT_EV;
    count++;
  }
  if (count < FEWEST_CELLS) {
    throw new EngineError(
      clipped > total / 2 ? 'all-clipped' : blocked > total / 2 ? 'no-light' : 'too-small',
      tooLittleLeft({ clipped, blocked, total }),
      { usableCells: count, cells: total, needed: FEWEST_CELLS },
    );
  }
  return {
    count,
    cell: cell.slice(0, count),
    x: x.slice(0, count),
    y: y.slice(0, count),
    log2Light: {
      red: log2Light.red.slice(0, count),
      green: log2Light.green.slice(0, count),
      blue: log2Light.blue.slice(0, count),
    },
    log2Luminance: log2Luminance.slice(0, count),
    sigmaEv: sigmaEv.slice(0, count),
    luminanceOf,
  };
}

/** What is in the way, and what to do about it; the largest cause is named. */
function tooLittleLeft({
  clipped,
  blocked,
  total,
}: {
  clipped: number;
  blocked: number;
  total: number;
}): string {
  const percent = (cells: number) => `${Math.round((100 * cells) / total)} %`;
  if (clipped > total / 2)
    return `${percent(clipped)} of the background is clipped, which leaves too little light to measure. Expose so that the hottest part stays a stop below clipping and shoot again.`;
  if (blocked > total / 2)
    return `${percent(blocked)} of the background is black, which leaves too little light to measure. Give it more light or exposure and shoot again.`;
  return 'Too little of the picture shows a lit background to measure how it falls off. Choose a larger part of the frame, or shoot the lit background so that it fills the frame.';
}
