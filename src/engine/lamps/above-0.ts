/** What can't be below 0, from a figure that can: itself where well above, smoothly towards 0 below. */
export function above0(value: number, softness: number): number {
  const scaled = value / softness;
  return scaled > 30 ? value : softness * Math.log1p(Math.exp(scaled));
}
