import { LIGHT_OF_CODE } from '../colour/srgb-code-light.ts';
import type { CellChannels } from '../grid/cell-grid.ts';
import type { CellLayout } from '../grid/cell-layout.ts';
import type { RgbaPicture } from '../intake/platform.ts';

/** One picture of a feed in cells, linear light under sRGB's curve, which a feed may or may not have. */
export interface LiveCells {
  readonly light: CellChannels;
  /** Share of pixels at one of the two highest codes in any channel, 0 to 1. */
  readonly clippedShare: number;
}

/** A feed's conversion may leave its own white a code below the highest. */
const CLIPPED_CODE = 254;
/** Half of the first code's light: black has no logarithm. */
const LEAST_LIGHT = LIGHT_OF_CODE[1]! / 2;

/** Averages one picture of a feed over the cells of a layout made for its size. Plain means: specks pass with the noise. */
export function liveCells({ widthPx, samples }: RgbaPicture, layout: CellLayout): LiveCells {
  const { columns, rows, xEdges, yEdges } = layout;
  const count = columns * rows;
  const light = {
    red: new Float64Array(count),
    green: new Float64Array(count),
    blue: new Float64Array(count),
  };
  let clipped = 0;
  // a pixel at one read is half the time; every machine that runs a browser keeps the lowest byte first
  const pixels = new Uint32Array(samples.buffer, samples.byteOffset, samples.length / 4);
  for (let row = 0; row < rows; row++) {
    for (let y = yEdges[row]!; y < yEdges[row + 1]!; y++) {
      for (let column = 0; column < columns; column++) {
        let red = 0;
        let green = 0;
        let blue = 0;
        const end = y * widthPx + xEdges[column + 1]!;
        for (let at = y * widthPx + xEdges[column]!; at < end; at++) {
          const pixel = pixels[at]!;
          const r = pixel & 255;
          const g = (pixel >> 8) & 255;
          const b = (pixel >> 16) & 255;
          red += LIGHT_OF_CODE[r]!;
          green += LIGHT_OF_CODE[g]!;
          blue += LIGHT_OF_CODE[b]!;
          if (r >= CLIPPED_CODE || g >= CLIPPED_CODE || b >= CLIPPED_CODE) clipped++;
        }
        const cell = row * columns + column;
        light.red[cell] = light.red[cell]! + red;
        light.green[cell] = light.green[cell]! + green;
        light.blue[cell] = light.blue[cell]! + blue;
      }
    }
    for (let column = 0; column < columns; column++) {
      const cell = row * columns + column;
      const inCell = (yEdges[row + 1]! - yEdges[row]!) * (xEdges[column + 1]! - xEdges[column]!);
      light.red[cell] = Math.max(light.red[cell]! / inCell, LEAST_LIGHT);
      light.green[cell] = Math.max(light.green[cell]! / inCell, LEAST_LIGHT);
      light.blue[cell] = Math.max(light.blue[cell]! / inCell, LEAST_LIGHT);
    }
  }
  const inAll = (xEdges[columns]! - xEdges[0]!) * (yEdges[rows]! - yEdges[0]!);
  return { light, clippedShare: clipped / inAll };
}
