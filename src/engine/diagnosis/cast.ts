import type { SetReading } from '../lamps/set-reading.ts';
import type { Cast, Finding } from '../reading.ts';
import { confidenceOf } from './confidence.ts';
import type { DiagnosisInput } from './diagnosis-input.ts';
import { miredInWords } from './figures-in-words.ts';
import { LEAST_IN_COMMON, leastToldCast } from './worth-telling.ts';

/** Beyond this Duv a tint is plainly seen. Own choice: the allowance of lamps sold as white, ±0.006, is from memory. */
const PLAIN_DUV = 0.006;

/** One mired near daylight in CIE 1960 u, v: 0.0047 u′v′ for ten, the locus running nearly along v′ × 2/3. */
const DUV_OF_A_MIRED = 0.0004;

/** The whole frame is off the white it is compared with, beyond the figure's own ± and enough to matter. */
export function cast({ measurement, tolerance }: DiagnosisInput): Finding | null {
  const measured = measurement.cast;
  if (!(measured.deltaUv > Math.max(measured.plusMinusDeltaUv, leastToldCast(tolerance)))) return null;
  return {
    kind: 'cast',
    confidence: confidenceOf(measured.deltaUv, measured.plusMinusDeltaUv),
    ev: null,
    mired: beyond(measured.mired, measured.plusMinusMired),
    at: null,
    says: `The whole frame is ${castInWords(measured)}.`,
    lengthsMm: null,
  };
}

/**
 * The lights' own colour on the background is off white, the same all over, beyond what spill or a tint on one side
 * bring: what that is of, one frame cannot tell. `null` where no set was fitted or it is too little.
 */
export function tintedAllOver({ measurement, set, tolerance }: DiagnosisInput): Finding | null {
  const measured = measurement.cast;
  const least = Math.max(measured.plusMinusDeltaUv, LEAST_IN_COMMON * tolerance.castDeltaUv);
  if (set === null || !(measured.deltaUv > least && broughtByLights(measured, set) > least)) return null;
  return {
    kind: 'tinted-all-over',
    confidence: confidenceOf(broughtByLights(measured, set), measured.plusMinusDeltaUv),
    ev: null,
    mired: beyond(set.mainColour.mired, measured.plusMinusMired),
    at: null,
    says: `The whole frame is ${castInWords(measured)}, and alike all over: it is the light’s own colour, the background’s, or the camera’s white balance.`,
    lengthsMm: null,
  };
}

/** By how much the cast falls when the lights' own colour on the background becomes white, in u′v′. */
export function broughtByLights(measured: Cast, { mainColour }: SetReading): number {
  const { deltaUPrime, deltaVPrime } = measured;
  return (
    measured.deltaUv - Math.hypot(deltaUPrime - mainColour.deltaUPrime, deltaVPrime - mainColour.deltaVPrime)
  );
}

function castInWords(measured: Cast): string {
  const mired = beyond(measured.mired, measured.plusMinusMired);
  const duv = beyond(measured.duv, measured.plusMinusDuv);
  const parts: string[] = [];
  if (mired !== null) parts.push(`${mired > 0 ? 'warmer' : 'cooler'} by ${miredInWords(mired)}`);
  if (duv !== null) {
    const hue = `${Math.abs(duv) > PLAIN_DUV ? 'plainly' : 'slightly'} ${duv > 0 ? 'greener' : 'more magenta'}`;
    // The larger of the two leads.
    if (Math.abs(duv) > DUV_OF_A_MIRED * Math.abs(mired ?? 0)) parts.unshift(hue);
    else parts.push(hue);
  }
  if (parts.length > 0) return `${parts.join(' and ')}, against white`;
  // No colour temperature to give: the opponent axes still say which way.
  const { labA, labB } = measured;
  if (Math.abs(labB) > Math.abs(labA))
    return `${labB > 0 ? 'warmer' : 'cooler'} than white, strongly coloured`;
  return `${labA < 0 ? 'greener' : 'more magenta'} than white, strongly coloured`;
}

/** A figure where it exceeds its ±, else `null`. */
function beyond(figure: number | null, plusMinus: number | null): number | null {
  return figure !== null && Math.abs(figure) > (plusMinus ?? 0) ? figure : null;
}
