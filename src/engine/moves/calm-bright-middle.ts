import type { Setup } from '../setup.ts';
import { slopeHasItsOwnColour } from './added-light.ts';
import { brighterLamp } from './brighter-lamp.ts';
import { cautionForDiffusion, cautionForMovingLamp } from './cautions.ts';
import type { Move } from './move.ts';
import type { MovesInput } from './moves-input.ts';

/**
 * Calms a middle that is hotter than the rim: every lamp farther away, as far as is known to be possible; more
 * diffusion where none can go back, and for a panel. By how much takes a model of the lamps. Of two lamps with a
 * slope across, only the one at the brighter side goes back: the other, weaker one would only widen the slope.
 * Nothing where the slope has a colour of its own: what is bright may be another light, to be put right first.
 */
export function calmBrightMiddle(input: MovesInput): Move[] {
  const { findings, setup } = input;
  if (!findings.some(({ kind }) => kind === 'bright-middle') || slopeHasItsOwnColour(input)) return [];
  const lamps = setup.arrangement === 'panel' ? [] : setup.arrangement === 'two-lamps' ? ofTwo(input) : [0];
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

function ofTwo({ findings, measurement }: MovesInput): number[] {
  const brighter = findings.some(({ kind }) => kind === 'slope') ? brighterLamp(measurement.gradient) : null;
  return brighter === null ? [0, 1] : [brighter];
}

function canGoBack(lamp: number, { lampDistanceMm, room }: Setup): boolean {
  const distance = lampDistanceMm[lamp] ?? null;
  return distance === null || room.reachMm === null || distance < room.reachMm;
}
