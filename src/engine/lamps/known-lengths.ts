import type { Setup } from '../setup.ts';
import type { NextParameter } from './parameters.ts';

/** Lengths of a set in frame widths, each asked of the fit where it is used. */
export interface KnownLengths {
  readonly lampDistance: (lamp: number) => number;
  readonly lampRadius: () => number;
  readonly cameraDistance: () => number;
}

/** A tape measure at a set errs by so much (natural logarithm). */
const TAPED = 0.12;

/** Usual lengths in frame widths, and how far sets differ in them (common practice, no published source). */
const USUAL = {
  lampDistance: [1.2, 0.5],
  lampRadius: [0.16, 0.5],
  cameraDistance: [2.5, 0.4],
} as const;

const WELL_BACK = [2.1, 0.2] as const;

/** Two lights of one set stand about equally far off. */
const USUALLY_UNEQUAL = 0.08;

/**
 * What was entered as expectations, what was not as usual. Where the frame's width is unknown, what was entered
 * still stands in its own proportions. `standsBack`: an unknown distance is expected to be a large one.
 */
export function knownLengths(setup: Setup, next: NextParameter, standsBack = false): KnownLengths {
  const { lampDistanceMm, lampWidthMm, cameraDistanceMm } = setup;
  const radiusMm = lampWidthMm === null ? null : lampWidthMm / 2;
  const distancesMm = [lampDistanceMm[0] ?? null, lampDistanceMm[1] ?? null];
  const eitherMm = distancesMm[0] ?? distancesMm[1] ?? null;
  const widthMm =
    setup.frameWidthMm ??
    usualWidth(
      [
        [eitherMm, USUAL.lampDistance],
        [cameraDistanceMm, USUAL.cameraDistance],
      ],
      next,
    );
  const length = (name: string, mm: number | null, [usual, deviation]: readonly [number, number]) =>
    Math.exp(
      mm === null || widthMm === null
        ? next(name, Math.log(usual), deviation)
        : next(name, Math.log(mm / widthMm), TAPED),
    );
  const usualDistance = standsBack ? WELL_BACK : USUAL.lampDistance;
  let first = Number.NaN;
  return {
    lampDistance: (lamp) => {
      const ownMm = distancesMm[lamp]!;
      if (lamp === 0) first = length('light 0 distance', ownMm ?? eitherMm, usualDistance);
      else if (ownMm === null || distancesMm[0] === null)
        return first * Math.exp(next.rarely(`light ${lamp} farther`, USUALLY_UNEQUAL, { most: 1 }));
      else return length(`light ${lamp} distance`, ownMm, USUAL.lampDistance);
      return first;
    },
    lampRadius: () => length('light radius', radiusMm, USUAL.lampRadius),
    cameraDistance: () => length('camera', cameraDistanceMm, USUAL.cameraDistance),
  };
}

/** The frame's width as the first length that was entered makes it likely; `null` where none was. */
function usualWidth(
  entered: readonly (readonly [mm: number | null, usual: readonly [number, number]])[],
  next: NextParameter,
): number | null {
  const known = entered.find(([mm]) => mm !== null);
  if (known === undefined) return null;
  const [mm, [usual, deviation]] = known;
  return Math.exp(next('frame width', Math.log(mm! / usual), deviation));
}
