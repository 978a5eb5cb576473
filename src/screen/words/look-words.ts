import type { FirstLook } from '../../engine/first-look.ts';
import { stops } from './figures.ts';

/** What a first look shows and that it is no reading yet. */
export function lookWords({ spreadEv }: FirstLook, stepEv: number): string {
  return (
    `First look, coarse: about ${stops(spreadEv)} over the whole frame, a broken line every ${stops(stepEv)}. ` +
    'It comes from a small copy of the picture and judges nothing; the measured map takes its place.'
  );
}
