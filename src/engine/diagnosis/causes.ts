import type { CauseShare } from '../lamps/cause-shares.ts';
import type { SetReading } from '../lamps/set-reading.ts';
import type { ModelledCause } from '../lamps/taken-out.ts';
import { mean } from '../numeric/mean.ts';
import type { Finding, FramePoint } from '../reading.ts';
import { causeSentence } from './cause-sentences.ts';
import type { DiagnosisInput } from './diagnosis-input.ts';
import { LEAST_TOLD_EV } from './figures-in-words.ts';
import { limitStops } from './limit-stops.ts';

/** What no set of the family explains, as a part of the spread: beyond it the model is silent. Own choice. */
const MOST_LEFT_OVER = 0.06;
const ALWAYS_LEFT_OVER_EV = 0.012;
/** The same of colour. */
const MOST_COLOUR_LEFT_OVER = 0.08;
const ALWAYS_LEFT_OVER_UV = 0.0002;

/** Causes that take less of the tolerance are not told. Own choice. */
const LEAST_OF_TOLERANCE = 1 / 4;

/** Causes less likely than this are not told. */
const LEAST_CONFIDENCE = 0.5;

/** Surer than this, a cause is told though another looks alike. */
const SURE = 0.97;

/** Causes told for their colour, whatever they take of the evenness. */
const BY_COLOUR: ReadonlySet<ModelledCause> = new Set([
  'stray-light',
  'unequal-colour',
  'lens-colour',
  'tinted-on-one-side',
]);

/**
 * Why the light is uneven, after the model of the set: every cause that takes enough to be worth telling and is more
 * likely there than not, largest first. Empty where no set of the arrangement explains the frame.
 */
export function causes(input: DiagnosisInput): Finding[] {
  const { measurement, set: found, setup, tolerance } = input;
  if (found === null || !explains(found, measurement)) return [];
  const least = Math.max(LEAST_TOLD_EV, LEAST_OF_TOLERANCE * limitStops(tolerance));
  const isTold = ({ cause, ev, deltaUv, confidence }: CauseShare) =>
    confidence > LEAST_CONFIDENCE &&
    (cause !== 'stray-light' || found.isSpillTold) &&
    !(confidence < SURE && isRival(cause, found)) &&
    (ev > least || (BY_COLOUR.has(cause) && deltaUv > LEAST_OF_TOLERANCE * tolerance.tintDeltaUv));
  return found.causes
    .filter(isTold)
    .sort((a, b) => b.ev - a.ev)
    .map(
      ({ cause, ev, confidence }): Finding => ({
        kind: cause,
        confidence,
        ev,
        mired: miredOf(cause, found),
        at: placeOf(cause, found, measurement),
        says: causeSentence(cause, found, setup, ev),
      }),
    );
}

/** Whether the frames cannot tell it from another cause, which is told of both together. */
function isRival(cause: ModelledCause, { rivals }: SetReading): boolean {
  return rivals.some(({ causes }) => causes.includes(cause));
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
  { lights, spill, balance }: SetReading,
  { falloff, tintGradient, region, frame }: DiagnosisInput['measurement'],
): FramePoint | null {
  const aspect = frame.heightPx / frame.widthPx;
  const inside = (right: number, down: number): FramePoint => ({
    x: Math.min(region.right, Math.max(region.left, 0.5 + right)),
    y: Math.min(region.bottom, Math.max(region.top, 0.5 + down / aspect)),
  });
  switch (cause) {
    case 'off-centre':
      return inside(mean(lights.map(({ right }) => right.value)), mean(lights.map(({ down }) => down.value)));
    case 'aimed-off':
      return inside(mean(lights.map(({ aimRight }) => aimRight)), mean(lights.map(({ aimDown }) => aimDown)));
    case 'unequal-lamps': {
      const { right, down } = lights[balance!.ev.value > 0 ? 0 : 1]!;
      return inside(right.value, down.value);
    }
    case 'stray-light': {
      const angle = (spill.fromDeg * Math.PI) / 180;
      return inside(Math.cos(angle), Math.sin(angle));
    }
    case 'too-close':
    case 'hot-spot':
      return falloff.brightestAt;
    case 'tinted-on-one-side': {
      const angle = ((tintGradient.angleDeg ?? 0) * Math.PI) / 180;
      return inside(Math.cos(angle), Math.sin(angle));
    }
    case 'unequal-colour':
    case 'lens-falloff':
    case 'lens-colour':
      return null;
  }
}
