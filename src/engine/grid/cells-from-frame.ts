import type { LinearFrame } from '../frame/linear-frame.ts';
import { type FrameRectangle, WHOLE_FRAME } from '../reading.ts';
import type { CellChannels, CellGrid } from './cell-grid.ts';
import { cellLayout } from './cell-layout.ts';
import { type CellTally, cellTallier } from './cell-tally.ts';
import { centreCells } from './centre-cells.ts';
import { oddCells } from './odd-cells.ts';
import { planeNoise } from './plane-noise.ts';
import { orientationTurnsSideways, storedRectangle } from './upright-rectangle.ts';

function channels(count: number): CellChannels {
  return { red: new Float64Array(count), green: new Float64Array(count), blue: new Float64Array(count) };
}

/**
 * Halfway from the blocked codes to the first that tells light. Blackness is held at it: how dark it really is can't
 * be known, but it has a logarithm, and its falloff does not vanish.
 */
function leastLight(frame: LinearFrame, channel: keyof CellChannels): number {
  const { lightAtCode, floorCode } = frame.fileCodes ?? frame;
  const light = lightAtCode[channel];
  return (light[floorCode]! + light[floorCode + 1]!) / 2;
}

/**
 * Averages a region of the upright frame into cells, in linear light, in one pass over the pixels.
 * Cells that do not belong to the light around them (a hanger, a crease, an edge) become NaN.
 *
 * @throws {@link EngineError} `too-small` where the region holds fewer than 2 × 2 cells of 8 pixels.
 */
export function cellsFromFrame(
  frame: LinearFrame,
  region: FrameRectangle = WHOLE_FRAME,
  onProgress?: (fraction: number) => void,
): CellGrid {
  const sideways = orientationTurnsSideways(frame.orientation);
  const uprightWidthPx = sideways ? frame.heightPx : frame.widthPx;
  const uprightHeightPx = sideways ? frame.widthPx : frame.heightPx;
  const layout = cellLayout(uprightWidthPx, uprightHeightPx, region);
  const { columns, rows, xEdges, yEdges } = layout;
  const light = channels(columns * rows);
  const scatter = channels(columns * rows);
  const pixels = new Float64Array(columns * rows);
  const highlightShare = new Float64Array(columns * rows);
  const shadowShare = new Float64Array(columns * rows);
  const speckShare = new Float64Array(columns * rows);
  const darkSpeckShare = new Float64Array(columns * rows);
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
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++) {
      const upright = {
        x0: xEdges[column]!,
        y0: yEdges[row]!,
        x1: xEdges[column + 1]!,
        y1: yEdges[row + 1]!,
      };
      tallyCell(storedRectangle(upright, frame.orientation, frame.widthPx, frame.heightPx));
      const cell = row * columns + column;
      light.red[cell] = tally.red;
      light.green[cell] = tally.green;
      light.blue[cell] = tally.blue;
      scatter.red[cell] = tally.redScatter;
      scatter.green[cell] = tally.greenScatter;
      scatter.blue[cell] = tally.blueScatter;
      pixels[cell] = tally.pixels;
      highlightShare[cell] = tally.highlightShare;
      shadowShare[cell] = tally.shadowShare;
      speckShare[cell] = tally.speckShare;
      darkSpeckShare[cell] = tally.darkSpeckShare;
    }
    onProgress?.((row + 1) / rows);
  }
  for (const name of ['red', 'green', 'blue'] as const) {
    centreCells(light[name], layout);
    const least = leastLight(frame, name);
    for (let cell = 0; cell < columns * rows; cell++) light[name][cell] = Math.max(least, light[name][cell]!);
  }
  const grid: CellGrid = {
    columns,
    rows,
    region: layout.region,
    cellWidthPx: (xEdges[columns]! - xEdges[0]!) / columns,
    cellHeightPx: (yEdges[rows]! - yEdges[0]!) / rows,
    light,
    setAsideLuminance: new Float64Array(columns * rows).fill(Number.NaN),
    scatter,
    pixels,
    highlightShare,
    shadowShare,
    speckShare,
    darkSpeckShare,
    lightAtCode: (frame.fileCodes ?? frame).lightAtCode,
    ...(frame.clipLight && { clipLight: frame.clipLight }),
    ...(frame.blackMeanCode !== undefined && { blackMeanCode: frame.blackMeanCode }),
    toXyz: frame.toXyz,
    jpegDcSteps: frame.jpegDcSteps,
    jpegPixelVariance: frame.jpegDcSteps ? planeNoise(frame) : null,
    refinedByBlocks: false,
    fine: null,
  };
  const odd = oddCells(grid);
  for (let cell = 0; cell < odd.length; cell++) {
    if (!odd[cell]) continue;
    const [, , , redShare, greenShare, blueShare] = frame.toXyz;
    grid.setAsideLuminance[cell] =
      redShare * light.red[cell]! + greenShare * light.green[cell]! + blueShare * light.blue[cell]!;
    light.red[cell] = light.green[cell] = light.blue[cell] = Number.NaN;
  }
  return grid;
}
