import type { FoundLight, SetReading } from '../engine/lamps/set-reading.ts';
import type { Move } from '../engine/moves/move.ts';
import type { FrameReport } from '../engine/read-frame.ts';
import type { FramePoint, Reading } from '../engine/reading.ts';
import type { Setup } from '../engine/setup.ts';
import { hasSlope } from './has-slope.ts';

/** What the plan is drawn from. */
export interface PlanInput {
  /** As it stands before the moves. */
  readonly setup: Setup;
  /** Height of the frame over its width. */
  readonly aspect: number;
  /** Where the light rises, degrees clockwise from the right; `null` where it has no direction. */
  readonly brighterDeg: number | null;
  readonly hottestAt: FramePoint;
  /** Whether that is but one place of several that clip. */
  readonly isHottestClipped: boolean;
  readonly moves: readonly Move[];
  /** The lights as fitted to the frame; none where no set explains it, and none for a panel. */
  readonly foundLights: readonly FoundLight[];
  /** The spill, where it is worth telling. */
  readonly spill: FoundSpill | null;
}

/** Light of the room as fitted; `fromDeg` is `null` where it comes from no one side. */
export type FoundSpill = SetReading['spill'];

/** A slope that makes up less than this share of the falloff's variance is no side to speak of. Own allowance. */
const LEAST_EXPLAINED = 0.2;

/** What a reading, and the set that is believed to be its own, know of what stands there. */
export function planInput(reading: Reading, setup: Setup, set: SetReading | null): PlanInput {
  const { frame, gradient, falloff, moves } = reading;
  return {
    setup,
    aspect: frame.heightPx / frame.widthPx,
    brighterDeg: hasSlope(gradient) && gradient.explains >= LEAST_EXPLAINED ? gradient.angleDeg : null,
    hottestAt: falloff.brightestAt,
    isHottestClipped: falloff.isLowerBound,
    moves,
    foundLights: set?.lights ?? [],
    spill: set === null ? null : toldSpill(reading, set),
  };
}

/**
 * The set of a report that may be drawn: one that explains its frame, and was fitted with the arrangement and
 * lengths as they stand. Fitted to a distance at which the light stood before a move, it would lie.
 */
export function believedSet(
  { set, isSetTrusted, fittedWith }: Pick<FrameReport, 'set' | 'isSetTrusted' | 'fittedWith'>,
  stands: Setup,
): SetReading | null {
  if (!isSetTrusted) return null;
  const { setup } = fittedWith;
  const isAlike = (one: number | null | undefined, other: number | null | undefined) =>
    (one ?? null) === (other ?? null);
  const fits =
    setup.arrangement === stands.arrangement &&
    isAlike(setup.frameWidthMm, stands.frameWidthMm) &&
    [0, 1].every((lamp) => isAlike(setup.lampDistanceMm[lamp], stands.lampDistanceMm[lamp]));
  return fits ? set : null;
}

function toldSpill({ findings }: Reading, { spill }: SetReading): FoundSpill | null {
  return findings.some(({ kind }) => kind === 'stray-light') ? spill : null;
}
