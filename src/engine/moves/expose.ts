import { clippedOvershoot } from '../diagnosis/clipped-overshoot.ts';
import { darkness } from '../diagnosis/too-dark.ts';
import type { Move } from './move.ts';
import type { MovesInput } from './moves-input.ts';

/**
 * Sets the brightest part a stop below clipping, where the frame is clipped or too dark for its tolerance.
 * What lies above the clip level is drawn on from the falloff that can still be seen.
 */
export function expose(input: MovesInput): Move | null {
  if (input.findings.some(({ kind }) => kind === 'clipped'))
    return exposeBy(-1 - clippedOvershoot(input.grid));
  if (input.findings.some(({ kind }) => kind === 'too-dark')) return exposeBy(darkness(input).stopsToAim);
  return null;
}

function exposeBy(stops: number): Move {
  return { kind: 'expose', stops, bringsEv: null, toward: null, caution: null };
}
