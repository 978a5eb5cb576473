import type { LinearFrame } from '../frame/linear-frame.ts';
import type { BlockMeans } from '../intake/jpeg-block-means.ts';
import type { CellGrid } from './cell-grid.ts';
import { cellLayout } from './cell-layout.ts';
import { beyondRounding, cellCodes, codingPlanes } from './coding-planes.ts';
import { orientationTurnsSideways, type PixelRectangle, storedRectangle } from './upright-rectangle.ts';

/** With this much noise, in codes², rounding to whole codes leaves less than a fiftieth of a code. */
const DITHERED_VARIANCE = 0.15;
/** A block whose pixels lie further than this from its mean was cut off at the end of the scale: it tells nothing. */
const LARGEST_DIFFERENCE_CODES = 1.5;
const BLOCK_PX = 8;

/**
 * Whether a JPEG's decoded codes stand in plateaux: its compression took the noise that would dither the rounding of
 * decoded pixels to whole codes, in luma or in chroma.
 */
export function standsInPlateaux({ jpegDcSteps, jpegPixelVariance }: CellGrid): boolean {
  if (!jpegDcSteps) return false;
  return !jpegPixelVariance?.every((variance) => beyondRounding(variance) > DITHERED_VARIANCE);
}

/** What each of a component's blocks holds beyond the decoded pixels' mean, in codes; NaN where it tells nothing. */
function differences(
  blocks: BlockMeans,
  sums: BlockSums,
  weights: readonly [number, number, number],
): Float32Array {
  const result = new Float32Array(blocks.means.length).fill(Number.NaN);
  const [wide, tall] = [blocks.widthPx / BLOCK_PX, blocks.heightPx / BLOCK_PX];
  for (let row = 0; (row + 1) * tall <= sums.down; row++) {
    for (let column = 0; (column + 1) * wide <= sums.across; column++) {
      let sum = 0;
      for (let y = row * tall; y < (row + 1) * tall; y++) {
        for (let x = column * wide; x < (column + 1) * wide; x++) {
          const i = 3 * (y * sums.across + x);
          sum += weights[0] * sums.rgb[i]! + weights[1] * sums.rgb[i + 1]! + weights[2] * sums.rgb[i + 2]!;
        }
      }
      const i = row * blocks.across + column;
      const difference = blocks.means[i]! - sum / (wide * tall);
      if (Math.abs(difference) <= LARGEST_DIFFERENCE_CODES) result[i] = difference;
    }
  }
  return result;
}

/** Means of R, G and B over every whole 8 × 8 block of the decoded picture. */
interface BlockSums {
  readonly across: number;
  readonly down: number;
  readonly rgb: Float32Array;
}

function blockSums({ widthPx, heightPx, samples, channels }: LinearFrame): BlockSums {
  const across = Math.floor(widthPx / BLOCK_PX);
  const down = Math.floor(heightPx / BLOCK_PX);
  const rgb = new Float32Array(3 * across * down);
  for (let row = 0; row < down; row++) {
    for (let column = 0; column < across; column++) {
      let red = 0;
      let green = 0;
      let blue = 0;
      for (let y = row * BLOCK_PX; y < (row + 1) * BLOCK_PX; y++) {
        let i = (y * widthPx + column * BLOCK_PX) * channels;
        for (let x = 0; x < BLOCK_PX; x++, i += channels) {
          red += samples[i]!;
          green += samples[i + 1]!;
          blue += samples[i + 2]!;
        }
      }
      const block = 3 * (row * across + column);
      rgb[block] = red / BLOCK_PX ** 2;
      rgb[block + 1] = green / BLOCK_PX ** 2;
      rgb[block + 2] = blue / BLOCK_PX ** 2;
    }
  }
  return { across, down, rgb };
}

/** Mean of the differences over a rectangle of stored pixels, by the area each block shares with it; 0 where none tells. */
function meanOver(
  cell: PixelRectangle,
  { widthPx, heightPx, across, down }: BlockMeans,
  values: Float32Array,
): number {
  let sum = 0;
  let area = 0;
  const lastRow = Math.min(down, Math.ceil(cell.y1 / heightPx));
  const lastColumn = Math.min(across, Math.ceil(cell.x1 / widthPx));
  for (let row = Math.floor(cell.y0 / heightPx); row < lastRow; row++) {
    const tall = Math.min(cell.y1, (row + 1) * heightPx) - Math.max(cell.y0, row * heightPx);
    for (let column = Math.floor(cell.x0 / widthPx); column < lastColumn; column++) {
      const value = values[row * across + column]!;
      if (Number.isNaN(value)) continue;
      const wide = Math.min(cell.x1, (column + 1) * widthPx) - Math.max(cell.x0, column * widthPx);
      sum += value * wide * tall;
      area += wide * tall;
    }
  }
  return area > 0 ? sum / area : 0;
}

/**
 * Adds to each cell's light what the JPEG holds of its blocks' means beyond the whole codes that were decoded from it.
 * `frame` is the decoded picture that `grid` was made from; `blocks` its luma, and its chroma where it has any. Where a
 * plane has no blocks (a grey file), nothing is added.
 */
export function refineByBlocks(grid: CellGrid, frame: LinearFrame, blocks: readonly BlockMeans[]): CellGrid {
  const { columns, rows, light } = grid;
  const { toPlanes, toRgb } = codingPlanes(grid);
  const { step } = cellCodes(light, grid.lightAtCode);
  const sums = blockSums(frame);
  const planes = blocks.map((component, p) => {
    // chroma's means come about 128, the planes' own about 0
    const centred = p === 0 ? component : { ...component, means: component.means.map((mean) => mean - 128) };
    return {
      component,
      values: differences(centred, sums, [toPlanes[3 * p]!, toPlanes[3 * p + 1]!, toPlanes[3 * p + 2]!]),
    };
  });
  const sideways = orientationTurnsSideways(frame.orientation);
  const layout = cellLayout(
    sideways ? frame.heightPx : frame.widthPx,
    sideways ? frame.widthPx : frame.heightPx,
    grid.region,
  );
  const refined = { red: light.red.slice(), green: light.green.slice(), blue: light.blue.slice() };
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++) {
      const upright = {
        x0: layout.xEdges[column]!,
        y0: layout.yEdges[row]!,
        x1: layout.xEdges[column + 1]!,
        y1: layout.yEdges[row + 1]!,
      };
      const cell = storedRectangle(upright, frame.orientation, frame.widthPx, frame.heightPx);
      const [luma = 0, cb = 0, cr = 0] = planes.map(({ component, values }) =>
        meanOver(cell, component, values),
      );
      const i = row * columns + column;
      refined.red[i]! += step.red[i]! * (toRgb[0] * luma + toRgb[1] * cb + toRgb[2] * cr);
      refined.green[i]! += step.green[i]! * (toRgb[3] * luma + toRgb[4] * cb + toRgb[5] * cr);
      refined.blue[i]! += step.blue[i]! * (toRgb[6] * luma + toRgb[7] * cb + toRgb[8] * cr);
    }
  }
  return { ...grid, light: refined, refinedByBlocks: true };
}
