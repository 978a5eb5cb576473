import { EngineError } from '../engine-error.ts';
import { quantile } from '../numeric/quantile.ts';
import type { CellChannels, CellGrid } from './cell-grid.ts';
import { cellsLight, levelStops } from './cells-light.ts';
import { averageFineStructure } from './fine-structure.ts';

/** Flicker may come to this between frames of one set-up; more is another exposure. Own allowance. */
const LARGEST_CHANGE_EV = 0.5;

/**
 * The light of one unchanged set-up falls alike in each frame. More than this, in all but the oddest twentieth of the
 * cells, is another arrangement, or a subject. Own allowance: the noise of a cell stays well below it.
 */
const LARGEST_DRIFT_EV = 0.15;
const DRIFTING_SHARE = 0.05;

/** Mean of the same cell over all grids; NaN where any has no measurement. */
function mean(arrays: readonly Float64Array[]): Float64Array {
  return arrays[0]!.map((_, i) => arrays.reduce((sum, values) => sum + values[i]!, 0) / arrays.length);
}

function meanOfChannels(channels: readonly CellChannels[], average: typeof mean): CellChannels {
  return {
    red: average(channels.map(({ red }) => red)),
    green: average(channels.map(({ green }) => green)),
    blue: average(channels.map(({ blue }) => blue)),
  };
}

/** Root of the mean square: scatter of single pixels stays that of one frame. */
function rootMeanSquare(arrays: readonly Float64Array[]): Float64Array {
  return mean(arrays.map((values) => values.map((value) => value * value))).map(Math.sqrt);
}

/** What two frames' cells differ by beyond their level, in stops: exceeded by {@link DRIFTING_SHARE} of them. */
function drift(grid: CellGrid, first: CellGrid, levelEv: number): number {
  const firstLight = cellsLight(first);
  const differences = Array.from(cellsLight(grid), (light, i) =>
    Math.abs(Math.log2(light / firstLight[i]!) - levelEv),
  ).filter(Number.isFinite);
  return differences.length === 0 ? 0 : quantile(differences, 1 - DRIFTING_SHARE);
}

/**
 * Averages the cells of several frames of one unchanged set-up. A cell's pixels add up, so that its error falls as it
 * should.
 *
 * @throws {@link EngineError} `unsupported-file` where the frames differ in size, depth, format, colour space, or by more than
 * half a stop in their light, or do not show light that falls alike.
 */
export function averageGrids(grids: readonly CellGrid[]): CellGrid {
  const first = grids[0]!;
  if (grids.length === 1) return first;
  for (const grid of grids) {
    const alike =
      grid.columns === first.columns &&
      grid.rows === first.rows &&
      grid.cellWidthPx === first.cellWidthPx &&
      grid.cellHeightPx === first.cellHeightPx &&
      grid.lightAtCode.green.length === first.lightAtCode.green.length &&
      (grid.jpegDcSteps === null) === (first.jpegDcSteps === null) &&
      grid.toXyz.every((value, i) => Math.abs(value - first.toXyz[i]!) < 1e-6);
    if (!alike) {
      throw new EngineError(
        'unsupported-file',
        'These frames differ in size, depth, format or colour space; frames to be averaged must come from one camera and one set-up. Choose them again, or read them one by one.',
      );
    }
  }
  for (const grid of grids) {
    const stops = levelStops(grid) - levelStops(first);
    if (Math.abs(stops) <= LARGEST_CHANGE_EV) continue;
    throw new EngineError(
      'unsupported-file',
      `These frames differ by ${Math.abs(stops).toFixed(1)} stops in their light; frames to be averaged must be exposed alike. Choose frames of one unchanged set-up, or read them one by one.`,
      { stops },
    );
  }
  for (const grid of grids) {
    const stops = drift(grid, first, levelStops(grid) - levelStops(first));
    if (stops <= LARGEST_DRIFT_EV) continue;
    throw new EngineError(
      'unsupported-file',
      `These frames do not show one unchanged set-up: their light falls differently, by ${stops.toFixed(1)} stops and more in parts of the frame. Choose frames between which nothing was moved, or read them one by one.`,
      { stops },
    );
  }
  return {
    ...first,
    light: meanOfChannels(
      grids.map(({ light }) => light),
      mean,
    ),
    scatter: meanOfChannels(
      grids.map(({ scatter }) => scatter),
      rootMeanSquare,
    ),
    pixels: mean(grids.map(({ pixels }) => pixels)).map((value) => value * grids.length),
    highlightShare: mean(grids.map(({ highlightShare }) => highlightShare)),
    shadowShare: mean(grids.map(({ shadowShare }) => shadowShare)),
    speckShare: mean(grids.map(({ speckShare }) => speckShare)),
    darkSpeckShare: mean(grids.map(({ darkSpeckShare }) => darkSpeckShare)),
    fine: averageFineStructure(grids.map(({ fine }) => fine)),
  };
}
