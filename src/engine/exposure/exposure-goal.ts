import type { BackgroundLevel } from './background-level.ts';
import { type CodedGrid, codeStops } from './coded-light.ts';

/** To what level the background is to be brought. */
export type ExposureGoal =
  /** Its hottest part, so many stops below the level at which the first channel clips. */
  | { readonly kind: 'below-clipping'; readonly stops: number }
  /** Its mean, to a code value from 0 to 255 of the file's coding. */
  | { readonly kind: 'code'; readonly code: number }
  /** Its mean, so many stops over the subject. */
  | { readonly kind: 'over-subject'; readonly stops: number; readonly subject: SubjectLevel };

/**
 * The subject's level: its code value in a frame exposed like this one, or how far the background meters over it now; `null`:
 * not said yet.
 */
export type SubjectLevel =
  | { readonly kind: 'code'; readonly code: number | null }
  | { readonly kind: 'metered'; readonly overEv: number | null };

/** As the blank frame is best shot: the falloff is all there, and well above noise. Common practice, no published source. */
export const BLANK_GOAL: ExposureGoal = { kind: 'below-clipping', stops: 1 };

/** What brings a background to its level. */
export interface ExposureChange {
  /** More light, in stops; negative: less. `null` where it is not known what it is to be counted from. */
  readonly stops: number | null;
  readonly plusMinusEv: number | null;
  /** Whether it is drawn on from what is seen beside the clipped part, and so only about right. */
  readonly isEstimate: boolean;
  /** How far the hottest part then lies over clipping, where it does; else `null`. */
  readonly clipsByEv: number | null;
  /** Whether the background's light alone is to change: what changes in the camera changes the subject alike. */
  readonly isLightAlone: boolean;
}

/** Stops more until the hottest part lies so many below clipping. */
export function toBelowClipping(
  { firstEv, overEv }: Pick<BackgroundLevel, 'firstEv' | 'overEv'>,
  stops: number,
): number {
  return -stops - (firstEv ?? overEv ?? 0);
}

export function exposureChange(goal: ExposureGoal, level: BackgroundLevel, coded: CodedGrid): ExposureChange {
  const hottestEv = level.firstEv ?? level.overEv ?? 0;
  const change = (stops: number | null, plusMinusEv: number | null, isEstimate: boolean): ExposureChange => ({
    stops,
    plusMinusEv: stops === null ? null : plusMinusEv,
    isEstimate,
    clipsByEv: stops !== null && hottestEv + stops > LEAST_TOLD_EV ? hottestEv + stops : null,
    isLightAlone: goal.kind === 'over-subject',
  });
  const isClipped = level.firstEv === null;
  switch (goal.kind) {
    case 'below-clipping':
      return change(toBelowClipping(level, goal.stops), level.brightestPlusMinusEv, isClipped);
    case 'code':
      return change(from(level.meanEv, codeStops(coded, goal.code)), level.meanPlusMinusEv, false);
    case 'over-subject': {
      const { subject, stops } = goal;
      if (subject.kind === 'metered') return change(from(subject.overEv, stops), null, false);
      const wantedEv = subject.code === null ? null : codeStops(coded, subject.code) + stops;
      return change(from(level.meanEv, wantedEv), level.meanPlusMinusEv, false);
    }
  }
}

const from = (nowEv: number | null, wantedEv: number | null) =>
  nowEv === null || wantedEv === null ? null : wantedEv - nowEv;

/** Less than half a tenth over reads "0.0". */
const LEAST_TOLD_EV = 0.05;
