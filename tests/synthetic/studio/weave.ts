/** The threads of a cloth: a fine regular texture both ways. */
export interface Weave {
  readonly pitchRightMm: number;
  readonly pitchDownMm: number;
  /** Of both ways together, peak to peak. */
  readonly rangeEv: number;
}

/** Share of the light that the threads leave, 1 halfway between thread and gap. */
export function weaveShare(weave: Weave): (xMm: number, yMm: number) => number {
  const [right, down] = [(2 * Math.PI) / weave.pitchRightMm, (2 * Math.PI) / weave.pitchDownMm];
  return (xMm, yMm) => 2 ** ((weave.rangeEv / 4) * (Math.cos(right * xMm) + Math.cos(down * yMm)));
}
