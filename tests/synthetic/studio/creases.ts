/** A soft straight line where a sheet was folded: darker or brighter than what lies beside it. */
export interface Crease {
  /** A spot that it runs through, mm about the middle of the frame. */
  readonly xMm: number;
  readonly yMm: number;
  /** Which way it runs, clockwise from the right. */
  readonly angleDeg: number;
  /** Width at half its depth. */
  readonly widthMm: number;
  /** Stops along its middle; under 0 is darker. */
  readonly depthEv: number;
}

/** Share of the light that is left by creases at a place on the background. */
export function creaseShare(creases: readonly Crease[]): (xMm: number, yMm: number) => number {
  const lines = creases.map(({ xMm, yMm, angleDeg, widthMm, depthEv }) => {
    const angle = (angleDeg * Math.PI) / 180;
    return { xMm, yMm, right: -Math.sin(angle), down: Math.cos(angle), half: widthMm / 2, depthEv };
  });
  return (xMm, yMm) => {
    let ev = 0;
    for (const line of lines) {
      const off = ((xMm - line.xMm) * line.right + (yMm - line.yMm) * line.down) / line.half;
      if (Math.abs(off) < 6) ev += line.depthEv * 2 ** (-off * off);
    }
    return 2 ** ev;
  };
}
