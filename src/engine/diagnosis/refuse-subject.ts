import { EngineError } from '../engine-error.ts';
import type { CellGrid } from '../grid/cell-grid.ts';
import { unsmoothCells } from './blankness.ts';

const NOT_BLANK_SHARE = 0.5;

/** @throws {@link EngineError} `not-blank` where more than half of the cells fit no smooth light. */
export function refuseSubject(grid: CellGrid): void {
  const { share } = unsmoothCells(grid);
  if (share <= NOT_BLANK_SHARE) return;
  throw new EngineError(
    'not-blank',
    `${Math.round(share * 100)} % of this picture is not smooth light: it seems to show a subject. Take the subject out and shoot the lit background empty.`,
    { share },
  );
}
