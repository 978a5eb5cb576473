import type { PlantedKind } from '../../synthetic/random/planted-cause.ts';
import type { RandomStudio } from '../../synthetic/random/random-studio.ts';
import type { TrueShare } from '../../synthetic/random/true-shares.ts';
import { trueStrength } from './cause-strength.ts';
import { type FalseCauses, falseCauses, falseTextures } from './false-causes.ts';
import {
  bandPeriodError,
  isSpillClaimed,
  lensError,
  type PlaceError,
  placeErrors,
  plantedSpillShare,
  spillError,
  unequalColourError,
} from './figure-errors.ts';
import { type NamedHow, namedFirst } from './named-first.ts';
import type { StudioReading } from './studio-frames.ts';

/** A studio's readings: of its blank frame, and with the second frame that tells what it cannot. */
export interface StudioReadings {
  readonly blank: StudioReading;
  /** Read where spill was planted. */
  readonly withLightsOff: StudioReading | null;
  /** Read where a lens's falloff was planted. */
  readonly withSlid: StudioReading | null;
}

/** How well one studio was read; errors are found less true, `null` where there is nothing to find. */
export interface StudioScore {
  readonly seed: number;
  readonly lead: PlantedKind;
  readonly named: NamedHow;
  readonly falseCauses: FalseCauses;
  readonly falseTextures: FalseCauses;
  readonly places: readonly PlaceError[];
  /** As parts of the share; from one frame `null` where it is not claimed. */
  readonly spill: { readonly fromOneFrame: number | null; readonly withLightsOff: number } | null;
  readonly lensEv: number | null;
  readonly bandPeriod: number | null;
  readonly unequalColourMired: number | null;
  readonly fitMs: number;
}

/** Scores readings against what is true of the studio. */
export function scoreStudio(
  studio: RandomStudio,
  truth: readonly TrueShare[],
  { blank, withLightsOff, withSlid }: StudioReadings,
): StudioScore {
  const share = plantedSpillShare(studio);
  return {
    seed: studio.seed,
    lead: leadOf(truth),
    named: namedFirst(truth, blank),
    falseCauses: falseCauses(truth, blank.findings),
    falseTextures: falseTextures(studio, blank.findings),
    places: placeErrors(studio, blank),
    spill:
      share === null || withLightsOff === null
        ? null
        : {
            fromOneFrame: isSpillClaimed(blank) ? spillError(share, blank) : null,
            withLightsOff: spillError(share, withLightsOff),
          },
    lensEv: withSlid && lensError(studio, withSlid),
    bandPeriod: bandPeriodError(studio, blank),
    unequalColourMired: unequalColourError(studio, blank),
    fitMs: blank.fitMs,
  };
}

/** The strongest planted cause. */
function leadOf(truth: readonly TrueShare[]): PlantedKind {
  const planted = truth.filter(({ isPlanted }) => isPlanted);
  return planted.reduce((lead, share) => (trueStrength(share) > trueStrength(lead) ? share : lead)).kind;
}
