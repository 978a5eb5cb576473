import { colourOfWarmth } from '../colour/colour-of-warmth.ts';
import { mean } from '../numeric/mean.ts';
import type { LitSet } from './lit-set.ts';

/** A colour against the white of the file. */
export interface MainColour {
  readonly mired: number;
  readonly duv: number;
  readonly deltaUPrime: number;
  readonly deltaVPrime: number;
}

/**
 * What all of the light has in common: of lights of two colours that of the one nearer to white, of a surface that is
 * tinted on one side that on the side nearer to white.
 */
export function mainColour({ tint, panel, lights }: LitSet): MainColour {
  const onesided = tint === null ? 0 : Math.hypot(tint.rightMired, tint.downMired) / 2;
  const white = colourOfWarmth(0, 0);
  const sources = panel === null ? lights.map(({ colour }) => colour) : [panel.colour];
  const colours = sources.flatMap((source) =>
    [-onesided, onesided].map((side) => {
      const mired = source.mired + side;
      const duv = source.duv + side * (tint?.duvPerMired ?? 0);
      const { uPrime, vPrime } = colourOfWarmth(mired, duv);
      return { mired, duv, deltaUPrime: uPrime - white.uPrime, deltaVPrime: vPrime - white.vPrime };
    }),
  );
  const far = (each: MainColour) => Math.hypot(each.deltaUPrime, each.deltaVPrime);
  return colours.reduce((near, each) => (far(each) < far(near) ? each : near));
}

/** Warmth of the lights together, or of the panel, on the clear surface. */
export function mainMired({ lights, panel }: LitSet): number {
  if (panel !== null) return panel.colour.mired;
  return mean(lights.map(({ colour }) => colour.mired));
}
