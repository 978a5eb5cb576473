/** A soft dark disc: dust or a drop on the background. */
export interface DustSpot {
  readonly xMm: number;
  readonly yMm: number;
  /** To where half of its depth is left. */
  readonly radiusMm: number;
  /** Stops that its middle takes, over 0. */
  readonly depthEv: number;
}

/** How far its edge reaches inwards and outwards, as a share of the radius. */
const SOFT = 0.5;

/** Share of the light that dust leaves at a place on the background. */
export function dustShare(spots: readonly DustSpot[]): (xMm: number, yMm: number) => number {
  return (xMm, yMm) => {
    let ev = 0;
    for (const spot of spots) {
      const [right, down] = [xMm - spot.xMm, yMm - spot.yMm];
      const radii = Math.sqrt(right * right + down * down) / spot.radiusMm;
      if (radii < 1 + SOFT) ev -= spot.depthEv * edge(radii);
    }
    return 2 ** ev;
  };
}

/** 1 inside, 0 outside, half a cosine between. */
const edge = (radii: number) =>
  radii <= 1 - SOFT ? 1 : 0.5 * (1 + Math.cos((Math.PI * (radii - 1 + SOFT)) / (2 * SOFT)));
