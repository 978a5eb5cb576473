import type { Finding } from '../reading.ts';
import { clippedAt } from './clipped-at.ts';
import { confidenceOf } from './confidence.ts';
import type { DiagnosisInput } from './diagnosis-input.ts';
import { shareInWords } from './figures-in-words.ts';

/** Specular specks and hot pixels clip without hiding any falloff. Own allowance: a thousandth of the region. */
export const CLIPPED_SHARE_BORNE = 0.001;

/** Highlights are clipped: the true spread is larger than what can be read. */
export function clipped({ measurement, grid }: DiagnosisInput): Finding | null {
  const share = measurement.clipping.highlightShare;
  const beyond = share - CLIPPED_SHARE_BORNE;
  const plusMinus = 1.96 * Math.sqrt((share * (1 - share)) / (grid.columns * grid.rows));
  if (!measurement.falloff.isLowerBound && !(beyond > plusMinus)) return null;
  const spread = measurement.falloff.isLowerBound
    ? '; the light falls off by more than this frame can show'
    : '';
  return {
    kind: 'clipped',
    // Where it is known to hide falloff there is nothing left to doubt.
    confidence: measurement.falloff.isLowerBound ? 1 : confidenceOf(beyond, plusMinus),
    ev: null,
    mired: null,
    at: clippedAt(grid),
    says: `${capital(shareInWords(share))} of the frame is clipped${spread}: expose less and shoot it again.`,
    lengthsMm: null,
  };
}

function capital(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1);
}
