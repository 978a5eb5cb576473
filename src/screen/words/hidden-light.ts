import type { Reading } from '../../engine/reading.ts';

/** Whether so much is clipped that neither the light nor the colour of all of it is known: more than odd sparkles. */
export function hidesLight({ falloff, clipping, verdict }: Reading): boolean {
  return falloff.isLowerBound || (verdict.exposed !== 'yes' && clipping.highlightShare > 0);
}

/** Whether something stands in the frame, so that no figure is of the light alone. */
export function isNotBlank({ findings }: Pick<Reading, 'findings'>): boolean {
  return findings.some(({ kind }) => kind === 'not-blank');
}

/** What to do about it, wherever the page says what to do. */
export const CLEAR_THE_FRAME = 'Take out what stands in the frame, and shoot it again.';
