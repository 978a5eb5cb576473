import type { Reading } from '../../src/engine/reading.ts';

/** The farthest that two maps of the same cells lie apart. */
export const furthest = (a: readonly (number | null)[], b: readonly (number | null)[]) =>
  Math.max(...a.map((value, i) => Math.abs(value! - b[i]!)));

/** From one angle to another, the shorter way round, degrees. */
export const turnDeg = (from: number, to: number) => ((((to - from) % 360) + 540) % 360) - 180;

/** How far the figures of two readings of one light lie apart, each in its own unit. */
export function distances(a: Reading, b: Reading): Record<string, number> {
  return {
    'map ev': furthest(a.falloff.evMap, b.falloff.evMap),
    'spread ev': Math.abs(a.falloff.spreadEv - b.falloff.spreadEv),
    'std ev': Math.abs(a.falloff.stdEv - b.falloff.stdEv),
    // ratios of light as the stops they are
    'nine points ev': Math.abs(Math.log2(a.falloff.ninePointMinOverMax / b.falloff.ninePointMinOverMax)),
    'min over mean ev': Math.abs(Math.log2(a.falloff.minOverMean / b.falloff.minOverMean)),
    'from centre ev': Math.abs(Math.log2((1 + a.falloff.fromCentreMax) / (1 + b.falloff.fromCentreMax))),
    'map uv': Math.max(
      furthest(a.tint.uPrimeMap, b.tint.uPrimeMap),
      furthest(a.tint.vPrimeMap, b.tint.vPrimeMap),
    ),
    'tint uv': Math.abs(a.tint.spreadDeltaUv - b.tint.spreadDeltaUv),
    'cast uv': Math.hypot(a.cast.uPrime - b.cast.uPrime, a.cast.vPrime - b.cast.vPrime),
    'cast mired': Math.abs(a.cast.mired! - b.cast.mired!),
    'cast duv': Math.abs(a.cast.duv! - b.cast.duv!),
    'gradient ev': Math.abs(a.gradient.ev - b.gradient.ev),
    'gradient deg': Math.abs(turnDeg(a.gradient.angleDeg!, b.gradient.angleDeg!)),
    'gradient mired': Math.abs(a.gradient.mired! - b.gradient.mired!),
    'tint gradient uv': Math.abs(a.tintGradient.deltaUv - b.tintGradient.deltaUv),
    'tint gradient mired': Math.abs(a.tintGradient.mired! - b.tintGradient.mired!),
  };
}

/** Keeps, of each figure, the larger distance; NaN counts as the largest. Changes `worst`. */
export function keepWorst(worst: Record<string, number>, next: Record<string, number>): void {
  for (const [name, value] of Object.entries(next)) if (!(value <= (worst[name] ?? -1))) worst[name] = value;
}

export const inWords = (worst: Record<string, number>) =>
  Object.entries(worst)
    .map(([name, value]) => `${name} ${value.toExponential(1)}`)
    .join(', ');
