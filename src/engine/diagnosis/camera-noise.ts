/** Electrons at the white code of the smallest sensors at their highest sensitivity. Own allowance. */
const FEWEST_ELECTRONS = 100;

/** Standard deviation of such a sensor's noise in the dark, as light. Own allowance. */
export const LARGEST_DARK_NOISE = 0.02;

/** The most that a single pixel can scatter by noise alone at a level of light; white code 1, standard deviation. */
export function largestNoise(light: number): number {
  return Math.sqrt(light / FEWEST_ELECTRONS + LARGEST_DARK_NOISE ** 2);
}
