import type { Finding } from '../reading.ts';
import { unsmoothCells } from './blankness.ts';
import { confidenceOf } from './confidence.ts';
import type { DiagnosisInput } from './diagnosis-input.ts';
import { shareInWords } from './figures-in-words.ts';

/** What specks, a hanger or a crease may take up of a blank frame. Own allowance. */
const SHARE_BORNE = 0.01;

/** An object covers neighbouring cells at once: a block of 8 × 8 is counted as one observation. */
const CELLS_TOGETHER = 64;

/** Part of the frame fits no smooth light: something stands in it, or it is no blank frame at all. */
export function notBlank({ grid }: DiagnosisInput): Finding | null {
  const { share, at } = unsmoothCells(grid);
  const blocks = Math.max(1, (grid.columns * grid.rows) / CELLS_TOGETHER);
  const plusMinus = 1.96 * Math.sqrt((share * (1 - share)) / blocks);
  const beyond = share - SHARE_BORNE;
  if (!(beyond > plusMinus)) return null;
  return {
    kind: 'not-blank',
    confidence: confidenceOf(beyond, plusMinus),
    ev: null,
    mired: null,
    at,
    says: `Something is in the frame: ${shareInWords(share)} of it follows no smooth light; take it out and shoot again.`,
  };
}
