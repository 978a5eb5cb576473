import { BY_COLOUR, type CauseShare } from '../lamps/cause-shares.ts';
import type { SetReading } from '../lamps/set-reading.ts';
import type { ModelledCause } from '../lamps/taken-out.ts';
import { mean } from '../numeric/mean.ts';
import type { Finding, FramePoint } from '../reading.ts';
import { causeSentence, worstAimed } from './cause-sentences.ts';
import type { DiagnosisInput } from './diagnosis-input.ts';
import { LEAST_TOLD_EV } from './figures-in-words.ts';
import { limitStops } from './limit-stops.ts';
import { misfittingFrame } from './misfitting-frame.ts';
import { LEAST_OF_CAUSE } from './worth-telling.ts';

/** What no set of the family explains, as a part of the spread: beyond it the model is silent. Own choice. */
const MOST_LEFT_OVER = 0.06;
const ALWAYS_LEFT_OVER_EV = 0.012;
/** The same of colour. */
const MOST_COLOUR_LEFT_OVER = 0.08;
const ALWAYS_LEFT_OVER_UV = 0.0002;

/** Causes less likely than this are not told. */
const LEAST_CONFIDENCE = 0.5;

/**
 * Why the light is uneven, after the model of the set: every cause that takes enough to be worth telling and is more
 * likely there than not. `untold`: those that are told as not to be told apart. Empty without a set.
 */
export function causes(input: DiagnosisInput, untold: ReadonlySet<ModelledCause> = new Set()): Finding[] {
  const { measurement, set: found, setup, tolerance } = input;
  if (found === null) return [];
  const least = Math.max(LEAST_TOLD_EV, LEAST_OF_CAUSE * limitStops(tolerance));
  const isTold = ({ cause, ev, deltaUv, confidence }: CauseShare) =>
    confidence > LEAST_CONFIDENCE &&
    (cause !== 'stray-light' || found.isSpillTold) &&
    !untold.has(cause) &&
    (ev > least || (BY_COLOUR.has(cause) && deltaUv > LEAST_OF_CAUSE * tolerance.tintDeltaUv));
  return found.causes.filter(isTold).map(({ cause, ev, confidence }): Finding => {
    const toldMm: number[] = [];
    const says = causeSentence(cause, found, setup, ev, toldMm);
    return {
      kind: cause,
      confidence,
      ev,
      mired: miredOf(cause, found),
      at: placeOf(cause, found, measurement),
      says,
      lengthsMm: toldMm.length === 0 ? null : toldMm,
    };
  });
}

/** Whether there is a set that follows its frame, and second frames that go with it: else it has nothing to say. */
export function isBelieved({ set, measurement }: Pick<DiagnosisInput, 'set' | 'measurement'>): boolean {
  return set !== null && misfittingFrame({ set, measurement }) === null && explains(set, measurement);
}

/** Whether the best set follows the frame closely enough for its causes to be believed. */
export function explains(
  { leftOverEv, leftOverUv }: SetReading,
  { falloff, tint }: DiagnosisInput['measurement'],
): boolean {
  return (
    leftOverEv < Math.max(ALWAYS_LEFT_OVER_EV, MOST_LEFT_OVER * falloff.spreadEv) &&
    leftOverUv < Math.max(ALWAYS_LEFT_OVER_UV, MOST_COLOUR_LEFT_OVER * tint.spreadDeltaUv)
  );
}

function miredOf(cause: ModelledCause, { spill, balance, tint, lensCornerMired }: SetReading): number | null {
  if (cause === 'stray-light') return Math.abs(spill.mired.value);
  if (cause === 'unequal-colour') return Math.abs(balance!.mired.value);
  if (cause === 'tinted-on-one-side') return tint === null ? null : Math.abs(tint.mired);
  if (cause === 'lens-colour') return Math.abs(lensCornerMired.value);
  return null;
}

/** Where to look: the spot before the light, the side that spill comes from, the hottest spot; no one place for a lens. */
function placeOf(
  cause: ModelledCause,
  { lights, spill, balance, tint }: SetReading,
  { falloff, region, frame }: DiagnosisInput['measurement'],
): FramePoint | null {
  const aspect = frame.heightPx / frame.widthPx;
  const inside = (right: number, down: number): FramePoint => ({
    x: Math.min(region.right, Math.max(region.left, 0.5 + right)),
    y: Math.min(region.bottom, Math.max(region.top, 0.5 + down / aspect)),
  });
  /** Where a ray from the middle of the region leaves it. */
  const edge = (angleDeg: number): FramePoint => {
    const [right, down] = [Math.cos((angleDeg * Math.PI) / 180), Math.sin((angleDeg * Math.PI) / 180)];
    const halfWidth = (region.right - region.left) / 2;
    const halfHeight = ((region.bottom - region.top) / 2) * aspect;
    const length = Math.min(halfWidth / Math.abs(right), halfHeight / Math.abs(down));
    return {
      x: region.left + halfWidth + right * length,
      y: (region.top + region.bottom) / 2 + (down * length) / aspect,
    };
  };
  switch (cause) {
    case 'off-centre':
      return inside(mean(lights.map(({ right }) => right.value)), mean(lights.map(({ down }) => down.value)));
    case 'aimed-off': {
      const { aimRight, aimDown } = worstAimed(lights);
      return inside(aimRight, aimDown);
    }
    case 'unequal-lamps': {
      const { right, down } = lights[balance!.ev.value > 0 ? 0 : 1]!;
      return inside(right.value, down.value);
    }
    case 'stray-light':
      return spill.fromDeg === null ? null : edge(spill.fromDeg);
    case 'too-close':
    case 'hot-spot':
      return falloff.brightestAt;
    case 'tinted-on-one-side':
      return tint === null ? null : edge(tint.towardDeg);
    case 'unequal-colour':
    case 'lens-falloff':
    case 'lens-colour':
      return null;
  }
}
