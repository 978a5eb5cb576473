import type { Setup } from '../setup.ts';
import { cautionForDiffusion, cautionForMovingLamp } from './cautions.ts';
import type { Move } from './move.ts';
import type { MovesInput } from './moves-input.ts';

/**
 * Calms a middle that is hotter than the rim: every lamp farther away, as far as is known to be possible; more
 * diffusion where none can go back, and for a panel. By how much takes a model of the lamps.
 */
export function calmBrightMiddle({ findings, setup }: MovesInput): Move[] {
  if (!findings.some(({ kind }) => kind === 'bright-middle')) return [];
  const lamps = setup.arrangement === 'panel' ? [] : setup.arrangement === 'two-lamps' ? [0, 1] : [0];
  const free = lamps.filter((lamp) => canGoBack(lamp, setup));
  if (free.length === 0)
    return [
      { kind: 'add-diffusion', bringsEv: null, toward: null, caution: cautionForDiffusion(setup.light) },
    ];
  return free.map((lamp) => ({
    kind: 'lamp-distance' as const,
    lamp,
    ratio: null,
    bringsEv: null,
    toward: null,
    caution: cautionForMovingLamp(setup.light),
  }));
}

function canGoBack(lamp: number, { lampDistanceMm, room }: Setup): boolean {
  const distance = lampDistanceMm[lamp] ?? null;
  return distance === null || room.reachMm === null || distance < room.reachMm;
}
