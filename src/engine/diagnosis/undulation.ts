import type { LineProfile } from '../grid/line-profiles.ts';
import { LONG_WAVE_PLACES, logStrips, meanOfStrips, SPECTRAL_FROM_CYCLES } from './band-wave.ts';
import { softlyPooled } from './softly-pooled.ts';
import { fitColumns, fitWave, legendreLines } from './wave-fit.ts';

/** A wave under a mere slope must leave this much less, in squares, than smooth light of as many coefficients. */
const LEAST_GAIN = 4;

/**
 * Whether light rises and falls along the lines by more than smooth light of as many coefficients: how much, crest
 * to trough in stops; 0 where it does not. From half a cycle on, so that light which undulates both ways is told.
 */
export function undulationEv(profile: LineProfile): number {
  const strips = logStrips(profile);
  if (strips.length === 0) return 0;
  const values = softlyPooled(meanOfStrips(strips), LONG_WAVE_PLACES);
  const alone = fitColumns(values, legendreLines(values.length, 4)).left;
  const slope = legendreLines(values.length, 1);
  let least = Number.POSITIVE_INFINITY;
  for (let cycles = 0.5; cycles <= SPECTRAL_FROM_CYCLES; cycles += 0.1)
    least = Math.min(least, fitWave(values, slope, cycles).left);
  return alone > LEAST_GAIN * least ? 2 * Math.SQRT2 * Math.sqrt(alone / values.length) : 0;
}
