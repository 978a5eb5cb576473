import type { Finding } from '../reading.ts';
import { unsmoothCells } from './blankness.ts';
import { confidenceOf } from './confidence.ts';
import type { DiagnosisInput } from './diagnosis-input.ts';
import { shareInWords } from './figures-in-words.ts';

/**
 * Share of cells that a blank frame itself may show: noisy frames and JPEGs of random sets of lamps showed at most
 * 0.6 %, a hanger 2.1 % (the tests print both).
 */
const SHARE_PLUS_MINUS = 0.03;

/** Part of the frame fits no smooth light: something stands in it, or it is no blank frame at all. */
export function notBlank({ grid }: DiagnosisInput): Finding | null {
  const { share, at } = unsmoothCells(grid);
  if (!(share > SHARE_PLUS_MINUS)) return null;
  return {
    kind: 'not-blank',
    confidence: confidenceOf(share, SHARE_PLUS_MINUS),
    ev: null,
    mired: null,
    at,
    says: `Something is in the frame: ${shareInWords(share)} of it follows no smooth light; take it out and shoot again.`,
    lengthsMm: null,
  };
}
