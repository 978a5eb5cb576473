import type { CellGrid } from '../grid/cell-grid.ts';
import { cellCentre } from '../numeric/cell-centre.ts';
import type { FramePoint } from '../reading.ts';
import { allLuminance } from './all-luminance.ts';
import { largestNoise } from './camera-noise.ts';
import { cellLuminance } from './cell-luminance.ts';
import { withoutFlicker } from './flicker-wave.ts';
import { robustSmoothLight } from './robust-smooth-light.ts';
import { texturedCells } from './textured-cells.ts';

/** Which cells fit no smooth light: an edge, a subject, a texture. */
export interface Blankness {
  /** Of the cells that could be judged (lit, not clipped), 0 to 1; 0 where there are none. */
  readonly share: number;
  /** 1 where the cell fits no smooth light, row-major. */
  readonly cells: Uint8Array;
  /** Centre of those cells; `null` where there are none. */
  readonly at: FramePoint | null;
}

/**
 * Departure from smooth light that a sheet's own grain, a crease or a lens may make, in stops. Common practice, no
 * published source: a tenth of a stop is what flash meters resolve.
 */
const SMOOTH_WITHIN_EV = 0.1;

/** From these shares of its pixels on, a cell's clipping or darkness hides whether its light is smooth. */
const CLIPPED_SHARE = 0.01;
const DARK_SHARE = 0.5;

/** A cell's mean may be off by so many of its standard deviations, as no blank frame of 6 144 cells shows more. */
const NOISE_DEVIATIONS = 4.5;

/** Demosaicing and JPEG tie neighbouring pixels together; a mean then averages less noise away. Own allowance. */
const CORRELATED_NOISE = 2;

/**
 * Finds the cells that no smooth light explains: those off a robust smooth surface through the frame, those whose
 * pixels scatter more than noise and falloff can, and those where many pixels had to be set aside.
 * Bands of flickering light, as smooth as a wave over the whole frame can be, are taken out first.
 * Clipped cells and cells without light can't be judged and count on neither side.
 */
export function unsmoothCells(grid: CellGrid): Blankness {
  const { columns, rows } = grid;
  const { light, scatter, codeStep } = cellLuminance(grid);
  const allStops = withoutFlicker(allLuminance(grid).map(Math.log2), grid);
  const logLight = new Float64Array(light.length);
  for (let cell = 0; cell < light.length; cell++) {
    const judged =
      !Number.isNaN(light[cell]!) &&
      !(grid.highlightShare[cell]! > CLIPPED_SHARE) &&
      !(grid.shadowShare[cell]! > DARK_SHARE);
    logLight[cell] = judged ? allStops[cell]! : Number.NaN;
  }
  const smooth = robustSmoothLight(logLight, columns, rows, SMOOTH_WITHIN_EV);
  const textured = texturedCells(grid, { light, scatter, codeStep });

  const cells = new Uint8Array(light.length);
  let judged = 0;
  let unsmooth = 0;
  let x = 0;
  let y = 0;
  for (let cell = 0; cell < cells.length; cell++) {
    if (Number.isNaN(logLight[cell]!)) {
      // A cell set aside although it is neither clipped nor dark did not continue its neighbours' light.
      const setAside =
        !(grid.highlightShare[cell]! > CLIPPED_SHARE) && !(grid.shadowShare[cell]! > DARK_SHARE);
      if (!setAside) continue;
      // as across a crease it may lie near the smooth light all the same
      const off = smooth === null ? Number.NaN : Math.abs(allStops[cell]! - smooth[cell]!);
      if (!(off <= SMOOTH_WITHIN_EV)) cells[cell] = 1;
    } else {
      const relative = (value: number) => value / (light[cell]! * Math.LN2);
      // A texture is no noise: what excuses a cell's mean is bounded by what a camera can do.
      const noise = Math.min(CORRELATED_NOISE * scatter[cell]!, largestNoise(light[cell]!));
      const noiseEv = relative(noise) / Math.sqrt(grid.pixels[cell]!);
      const allowedEv = SMOOTH_WITHIN_EV + NOISE_DEVIATIONS * noiseEv + relative(codeStep[cell]!) / 2;
      const off = smooth === null ? 0 : Math.abs(logLight[cell]! - smooth[cell]!);
      if (off > allowedEv || textured[cell] === 1) cells[cell] = 1;
    }
    judged++;
    if (cells[cell] === 0) continue;
    unsmooth++;
    const centre = cellCentre(grid, cell);
    x += centre.x;
    y += centre.y;
  }
  return {
    share: judged === 0 ? 0 : unsmooth / judged,
    cells,
    at: unsmooth === 0 ? null : { x: x / unsmooth, y: y / unsmooth },
  };
}
