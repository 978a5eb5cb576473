/** To six decimals, as profiles are written: a millionth of a stop is far below any coding's step. */
export function roundedTo6(value: number): number {
  return Math.round(value * 1e6) / 1e6 + 0; // + 0 makes −0 plain 0, which JSON would not give back
}
