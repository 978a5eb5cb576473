/** Samples of the staircase a code. */
const SAMPLES_PER_CODE = 64;
/** Periods longer than this (very coarse JPEGs) are cut to it. */
const LONGEST_PERIOD_CODES = 32;

/**
 * The error of a rounding as a function of the true code, held as its running integral so that a cell's mean error over
 * the codes it spans is one difference. It repeats after `periodCodes`.
 */
export interface Staircase {
  readonly periodCodes: number;
  /** Integral of the error from 0 over one period, at equal steps. */
  readonly integral: Float64Array;
  /** Steps of that integral. */
  readonly samplesPerPeriod: number;
  readonly periodsPerCode: number;
}

function staircaseOf(periodCodes: number, integral: Float64Array): Staircase {
  return { periodCodes, integral, samplesPerPeriod: integral.length - 1, periodsPerCode: 1 / periodCodes };
}

/** Mean of round(code + noise) over normal noise of the given variance; harmonics beyond the eighth don't show. */
function roundedMean(code: number, noiseVariance: number): number {
  if (noiseVariance < 1e-4) return Math.round(code);
  let mean = code;
  for (let k = 1; k <= 8; k++) {
    const left = Math.exp(-2 * (Math.PI * k) ** 2 * noiseVariance);
    mean += ((k % 2 === 0 ? 1 : -1) / (Math.PI * k)) * left * Math.sin(2 * Math.PI * k * code);
  }
  return mean;
}

/** Error of rounding to multiples of `stepCodes` and to nothing else. */
export function plainStaircase(stepCodes: number): Staircase {
  const count = Math.max(8, Math.round(stepCodes * SAMPLES_PER_CODE));
  const integral = new Float64Array(count + 1);
  for (let i = 0; i < count; i++) {
    const share = (i + 0.5) / count;
    integral[i + 1] = integral[i]! + ((Math.round(share) - share) * stepCodes * stepCodes) / count;
  }
  return staircaseOf(stepCodes, integral);
}

/**
 * Error of rounding to whole codes, after rounding to multiples of `firstStepCodes` (a JPEG's DC step; 0: none).
 * `noiseVariance`, in codes², is what dithers the last rounding: with half a code of it nothing is left (B. Widrow and
 * I. Kollár, Quantization Noise, 2008, chapter 5, from memory).
 */
export function staircase(noiseVariance: number, firstStepCodes: number): Staircase {
  const wholePeriod = firstStepCodes > 0 ? Math.ceil(8 * firstStepCodes) : 1; // 8 steps make whole codes
  const periodCodes = Math.max(1, Math.min(LONGEST_PERIOD_CODES, wholePeriod));
  const count = periodCodes * SAMPLES_PER_CODE;
  const integral = new Float64Array(count + 1);
  for (let i = 0; i < count; i++) {
    const code = (i + 0.5) / SAMPLES_PER_CODE;
    const coded = firstStepCodes > 0 ? Math.round(code / firstStepCodes) * firstStepCodes : code;
    integral[i + 1] = integral[i]! + (roundedMean(coded, noiseVariance) - code) / SAMPLES_PER_CODE;
  }
  return staircaseOf(periodCodes, integral);
}

function integralAt({ integral, samplesPerPeriod, periodsPerCode }: Staircase, code: number): number {
  const place = code * periodsPerCode;
  const periods = Math.floor(place);
  const sample = (place - periods) * samplesPerPeriod;
  const below = sample | 0;
  const low = integral[below]!;
  // the last sample has none after it, and stands only where rounding brings a code to its period's very end
  const inside = below === samplesPerPeriod ? low : low + (integral[below + 1]! - low) * (sample - below);
  return periods * integral[samplesPerPeriod]! + inside;
}

/** Mean error over codes spread evenly about `code`, `spanCodes` from the first to the last (above 0). */
export function meanError(stairs: Staircase, code: number, spanCodes: number): number {
  return (integralAt(stairs, code + spanCodes / 2) - integralAt(stairs, code - spanCodes / 2)) / spanCodes;
}
