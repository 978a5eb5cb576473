import { LIGHT_OF_CODE, luminanceOf } from '../colour/srgb-code-light.ts';
import type { RgbaPicture } from '../intake/platform.ts';

/** A step within a few pixels that no falloff of light makes over a preview, in stops; own choice. */
const STEP_EV = 0.2;
/** Below this light a step of one 8-bit code is as large. */
const LEAST_LIGHT = 0.004;
const BLOCK_PX = 2;
/** Blocks between the two that are held against each other. */
const APART = 2;

/** Share of cells in which light steps from one pair of pixels to the next but one, 0 to 1. */
export function edgeShare(
  { widthPx, heightPx, samples }: RgbaPicture,
  cells: { readonly columns: number; readonly rows: number },
): number {
  const [wide, high] = [Math.floor(widthPx / BLOCK_PX), Math.floor(heightPx / BLOCK_PX)];
  const stops = new Float64Array(wide * high);
  for (let y = 0; y < high; y++) {
    for (let x = 0; x < wide; x++) {
      let light = 0;
      for (let down = 0; down < BLOCK_PX; down++) {
        for (let right = 0; right < BLOCK_PX; right++) {
          const at = ((y * BLOCK_PX + down) * widthPx + x * BLOCK_PX + right) * 4;
          light += luminanceOf(
            LIGHT_OF_CODE[samples[at]!]!,
            LIGHT_OF_CODE[samples[at + 1]!]!,
            LIGHT_OF_CODE[samples[at + 2]!]!,
          );
        }
      }
      stops[y * wide + x] = Math.log2(Math.max(light / (BLOCK_PX * BLOCK_PX), LEAST_LIGHT));
    }
  }
  const hasEdge = new Uint8Array(cells.columns * cells.rows);
  const mark = (x: number, y: number, other: number | undefined) => {
    if (other === undefined || Math.abs(stops[y * wide + x]! - other) <= STEP_EV) return;
    const column = Math.floor((x * cells.columns) / wide);
    hasEdge[Math.floor((y * cells.rows) / high) * cells.columns + column] = 1;
  };
  for (let y = 0; y < high; y++) {
    for (let x = 0; x < wide; x++) {
      if (x + APART < wide) mark(x, y, stops[y * wide + x + APART]);
      if (y + APART < high) mark(x, y, stops[(y + APART) * wide + x]);
    }
  }
  return hasEdge.reduce((sum, is) => sum + is, 0) / hasEdge.length;
}
