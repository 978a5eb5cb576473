import { clippedOvershoot } from '../diagnosis/clipped-overshoot.ts';
import { lightLevel } from '../diagnosis/light-level.ts';
import { darkness } from '../diagnosis/too-dark.ts';
import { hidesLevel } from '../exposure/background-level.ts';
import { toBelowClipping } from '../exposure/exposure-goal.ts';
import type { Move } from './move.ts';
import type { MovesInput } from './moves-input.ts';

/**
 * Sets the brightest part a stop below clipping, where the frame is clipped or too dark for its tolerance.
 * What lies above the clip level is drawn on from the falloff that can still be seen.
 */
export function expose(input: MovesInput): Move | null {
  const { findings, grid } = input;
  if (findings.some(({ kind }) => kind === 'clipped')) {
    const stops = hidesLevel(grid)
      ? toBelowClipping({ firstEv: null, overEv: clippedOvershoot(grid) }, 1)
      : lightLevel(grid).stopsToAim;
    return stops < 0 ? exposeBy(stops) : null; // over a darker background only specks and glints clip
  }
  if (findings.some(({ kind }) => kind === 'too-dark')) return exposeBy(darkness(input).stopsToAim);
  return null;
}

function exposeBy(stops: number): Move {
  return { kind: 'expose', stops, bringsEv: null, toward: null, caution: null };
}
