import type { Finding, FramePoint, Gradient } from '../reading.ts';
import { confidenceOf } from './confidence.ts';
import type { DiagnosisInput } from './diagnosis-input.ts';
import { fallInSpread, falloffPlane } from './falloff-plane.ts';
import { LEAST_TOLD_EV, miredInWords, stopsInWords } from './figures-in-words.ts';
import { sideInWords } from './side-in-words.ts';
import { leastToldEv, slopeColourMatters } from './worth-telling.ts';

/**
 * One side is down: how much less the spread would be without the straight part of the falloff. Where that is too
 * little against the tolerance to be told, its change of colour may be enough.
 */
export function slope(input: DiagnosisInput): Finding | null {
  const { measurement, tolerance } = input;
  const { gradient, region } = measurement;
  const laid = falloffPlane(input);
  if (laid === null || gradient.angleDeg === null) return null;
  const ev = fallInSpread(laid.ev, laid.plane);
  const least = slopeColourMatters(gradient, tolerance) ? LEAST_TOLD_EV : leastToldEv(measurement, tolerance);
  if (!(ev > Math.max(gradient.plusMinusEv, least))) return null;
  const dark = sideInWords(gradient.angleDeg + 180);
  const bright = sideInWords(gradient.angleDeg);
  const mired = sureMired(gradient);
  // The gradient's change of colour runs towards the brighter side; the sentence speaks of the darker one.
  const colour = mired === null ? '' : ` and ${mired > 0 ? 'cooler' : 'warmer'} by ${miredInWords(-mired)}`;
  return {
    kind: 'slope',
    confidence: confidenceOf(ev, gradient.plusMinusEv),
    ev,
    mired: mired === null ? null : Math.abs(mired),
    at: inside(gradient.from, region),
    says: `The ${dark} is down by ${stopsInWords(gradient.ev)} against the ${bright}${colour}.`,
    lengthsMm: null,
  };
}

function sureMired({ mired, plusMinusMired }: Gradient): number | null {
  return mired !== null && Math.abs(mired) > (plusMinusMired ?? 0) ? mired : null;
}

/** The ramp's end may lie outside the region; the place to show is on its edge. */
function inside(point: FramePoint, region: DiagnosisInput['measurement']['region']): FramePoint {
  return {
    x: Math.min(region.right, Math.max(region.left, point.x)),
    y: Math.min(region.bottom, Math.max(region.top, point.y)),
  };
}
