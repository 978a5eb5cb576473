import type { LinearFrame } from '../frame/linear-frame.ts';
import type { CellChannels, CellGrid } from '../grid/cell-grid.ts';
import { cellLayout } from '../grid/cell-layout.ts';
import { type CellTally, cellTallier } from '../grid/cell-tally.ts';
import { orientationTurnsSideways, storedRectangle } from '../grid/upright-rectangle.ts';

/**
 * The light of every cell of a frame's grid, those included that were set aside because they do not continue the light
 * around them: at an edge that is so on both sides of it, and there the edge is looked for. Only they are averaged
 * anew.
 */
export function completeLight(grid: CellGrid, frame: LinearFrame): CellChannels {
  const light = {
    red: grid.light.red.slice(),
    green: grid.light.green.slice(),
    blue: grid.light.blue.slice(),
  };
  const { widthPx, heightPx, orientation } = frame;
  const sideways = orientationTurnsSideways(orientation);
  const [width, height] = sideways ? [heightPx, widthPx] : [widthPx, heightPx];
  const { xEdges, yEdges } = cellLayout(width, height, grid.region);
  const tally: CellTally = {
    pixels: 0,
    red: 0,
    green: 0,
    blue: 0,
    redScatter: 0,
    greenScatter: 0,
    blueScatter: 0,
    highlightShare: 0,
    shadowShare: 0,
    speckShare: 0,
    darkSpeckShare: 0,
  };
  const tallyCell = cellTallier(frame, tally);
  for (let cell = 0; cell < light.green.length; cell++) {
    if (!Number.isNaN(light.green[cell]!)) continue;
    const [column, row] = [cell % grid.columns, Math.floor(cell / grid.columns)];
    const upright = { x0: xEdges[column]!, y0: yEdges[row]!, x1: xEdges[column + 1]!, y1: yEdges[row + 1]! };
    tallyCell(storedRectangle(upright, orientation, widthPx, heightPx));
    light.red[cell] = tally.red;
    light.green[cell] = tally.green;
    light.blue[cell] = tally.blue;
  }
  return light;
}
