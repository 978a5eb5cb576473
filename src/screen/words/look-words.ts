import type { FirstLook } from '../../engine/first-look.ts';

/** What a first look shows and that it is no reading yet. */
export function lookWords({ spreadEv }: FirstLook, stepEv: number): string {
  return (
    `First look, coarse: about ${spreadEv.toFixed(1)} stops over the whole frame, a broken line every ${stepEv.toFixed(1)} stop. ` +
    'It comes from a small decode and judges nothing; the measured map takes its place.'
  );
}
