import type { FoundLight } from '../engine/lamps/set-reading.ts';
import type { PlanInput } from './plan-input.ts';
import type { PlanLengths } from './plan-lengths.ts';
import { componentSeen, type PlanSide, type SetPoint } from './plan-projection.ts';

/** Where a light stands on the plan, in mm. */
export interface LightPlace {
  readonly at: SetPoint;
  /** The spot on the surface that it points at; straight before it where that was not found. */
  readonly aim: SetPoint;
  /** How far its outline reaches to either side of its place, along the surface and away from it. */
  readonly halfAlong: number;
  readonly halfAway: number;
  /** What the frame tells of it; `null` where only its distance is known, or not even that. */
  readonly found: FoundLight | null;
}

/** A light farther than this from the middle of the frame, in frame widths, is drawn no farther away. */
const FARTHEST_ALONG = 3;

/** Where each light is drawn: as found; else its distance as entered, across the frame's middle or out of shot. */
export function lightPlaces(
  { foundLights, brighterDeg }: Pick<PlanInput, 'foundLights' | 'brighterDeg'>,
  { lampDistances, lampWidth, lampSide, frameWidth }: PlanLengths,
  frameAlong: number,
  seenFrom: PlanSide,
): LightPlace[] {
  const half = lampWidth.mm / 2;
  const outOfShot = frameAlong / 2 + lampWidth.mm * 0.75;
  return lampDistances.map(({ mm }, lamp) => {
    const away = lampSide * mm;
    const found = foundLights[lamp];
    if (found !== undefined) {
      const isAbove = seenFrom === 'above';
      const along = inReach((isAbove ? found.right : found.down).value) * frameWidth.mm;
      const aim = (isAbove ? found.aimRight : found.aimDown) * frameWidth.mm;
      const slant = Math.hypot(aim - along, mm);
      return {
        at: [along, away],
        aim: [aim, 0],
        halfAlong: (half * mm) / slant,
        halfAway: (half * Math.abs(aim - along)) / slant,
        found,
      };
    }
    const brighter = componentSeen(brighterDeg, seenFrom);
    const side = lampDistances.length > 1 ? (lamp === 0 ? -1 : 1) : brighter < 0 ? -1 : 1;
    const along = seenFrom === 'side' || lampSide > 0 ? 0 : side * outOfShot;
    return { at: [along, away], aim: [along, 0], halfAlong: half, halfAway: 0, found: null };
  });
}

function inReach(widths: number): number {
  return Math.min(FARTHEST_ALONG, Math.max(-FARTHEST_ALONG, widths));
}
