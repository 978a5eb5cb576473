import { EngineError } from '../engine-error.ts';
import type { CellGrid } from './cell-grid.ts';

/** Share of cells, mostly clipped or black, from which there is nothing to measure. */
const NOTHING_LEFT_SHARE = 0.98;

/** Whether a cell's light is no more than two codes above black in every channel (of a raw file, the sensor's own). */
function isBlack({ light, lightAtCode, blackMeanCode = 2 }: CellGrid, cell: number): boolean {
  return (
    light.red[cell]! <= lightAtCode.red[blackMeanCode]! &&
    light.green[cell]! <= lightAtCode.green[blackMeanCode]! &&
    light.blue[cell]! <= lightAtCode.blue[blackMeanCode]!
  );
}

/**
 * @throws {@link EngineError} `no-light` where nearly every cell is black in all three channels, so that a deep colour,
 * black in one of them, still reads; `all-clipped` where most pixels of nearly every cell are clipped in any channel.
 */
export function refuseWithoutLight(grid: CellGrid): void {
  const count = grid.pixels.length;
  let clipped = 0;
  let black = 0;
  for (let cell = 0; cell < count; cell++) {
    if (grid.highlightShare[cell]! > 0.5) clipped++;
    if (isBlack(grid, cell)) black++;
  }
  if (clipped > NOTHING_LEFT_SHARE * count) {
    throw new EngineError(
      'all-clipped',
      'The whole frame is clipped: nearly every part reached the brightest value that the file can hold, in one colour at least. Expose so that the hottest part stays a stop below clipping and shoot again.',
    );
  }
  if (black > NOTHING_LEFT_SHARE * count) {
    throw new EngineError(
      'no-light',
      'The frame is black: no part of it holds any light. Check that the light is on, the lens cap off and the flash in step, and shoot again.',
    );
  }
}
