import { uvPrimeToXy, xyToXyz } from '../colour/chromaticity.ts';
import { colourOfWarmth } from '../colour/colour-of-warmth.ts';
import { lensShare } from './lens-share.ts';
import type { LitSet, SourceColour, SurfaceTint } from './lit-set.ts';
import { panelLight } from './panel-light.ts';
import { rimShare } from './rim-share.ts';
import { type LightAt, seenLight } from './seen-light.ts';
import { spillLight } from './spill-light.ts';

/** Linear tristimulus light X, Y, Z, adapted to D65: any linear RGB is a matrix away, and light adds up in it. */
export type Tristimulus = readonly [x: number, y: number, z: number];

/** The locus ends 154 mired below the white of the file; a camera balanced for lamps sees daylight beyond its end. */
export const COOLEST_MIRED = -130;
const WARMEST_MIRED = 500;

const WHITE = tristimulus({ mired: 0, duv: 0 });

/** One source of a set: how it falls, and its colour; the first is worked out when it is asked for. */
export interface SourceLight {
  readonly kind: 'light' | 'panel' | 'spill';
  readonly level: () => LightAt;
  readonly colour: SourceColour;
}

/** The sources of a set, lights first, then panel and spill. The lens is not in them. */
export function setSources(set: LitSet): readonly SourceLight[] {
  const { panel, spill } = set;
  const sources = set.lights.map(
    (light): SourceLight => ({ kind: 'light', level: () => seenLight(set, light), colour: light.colour }),
  );
  if (panel !== null) sources.push({ kind: 'panel', level: () => panelLight(panel), colour: panel.colour });
  if (spill !== null) sources.push({ kind: 'spill', level: () => spillLight(spill), colour: spill.colour });
  return sources;
}

/**
 * What the camera records of a set at a spot of the frame (frame widths about its middle): the sources' light added
 * up, times what the lens lets through. A mixture of two lights so lies on the line between their chromaticities.
 */
export function setLight(set: LitSet): (x: number, y: number) => Tristimulus {
  const sources = setSources(set).map(({ level, colour }) => ({
    level: level(),
    colour: tristimulus(colour),
  }));
  const through = passedOn(set);
  return (x, y) => {
    let [sumX, sumY, sumZ] = [0, 0, 0];
    for (const { level, colour } of sources) {
      const light = level(x, y);
      sumX += light * colour[0];
      sumY += light * colour[1];
      sumZ += light * colour[2];
    }
    const [lensX, lensY, lensZ] = through(x, y);
    return [sumX * lensX, sumY * lensY, sumZ * lensZ];
  };
}

/**
 * What surface, rim and lens let through of X, Y and Z at a spot.
 */
export function passedOn({ lens, tint, rim, aspect }: LitSet): (x: number, y: number) => Tristimulus {
  const share: LightAt = lens === null ? () => 1 : lensShare(lens, aspect);
  const beside: LightAt = rim === null ? () => 1 : rimShare(rim, aspect);
  const corner = lens === null ? NO_CHANGE : change(lens.corner);
  const tinted = tint === null ? null : tintAt(tint);
  const cornerSquare = (1 + aspect * aspect) / 4;
  return (x, y) => {
    const square = (x * x + y * y) / cornerSquare;
    const [tintX, tintY, tintZ] = tinted === null ? NO_TINT : tinted(x, y);
    const through = share(x, y) * beside(x, y) * tintY;
    return [
      through * Math.exp(corner[0] * square + tintX),
      through,
      through * Math.exp(corner[1] * square + tintZ),
    ];
  };
}

const NO_TINT = [0, 1, 0] as const;

/** Natural logarithms of X and Z at the same Y, and what is left of Y between them. */
function tintAt(tint: SurfaceTint): (x: number, y: number) => readonly [x: number, y: number, z: number] {
  const mired = Math.hypot(tint.rightMired, tint.downMired);
  const [right, down] = mired === 0 ? [1, 0] : [tint.rightMired / mired, tint.downMired / mired];
  const [fullX, fullZ] = change({ mired, duv: tint.duvPerMired * mired });
  const lossEv = tint.lossEvPerMired * mired;
  return (x, y) => {
    const reached = 1 / (1 + Math.exp((-4 * ((x - tint.x) * right + (y - tint.y) * down)) / tint.soft)) - 0.5;
    return [reached * fullX, 2 ** (-reached * lossEv), reached * fullZ];
  };
}

const NO_CHANGE = [0, 0] as const;

/** A change of colour as natural logarithms of X and Z at the same Y. */
function change(colour: SourceColour): readonly [x: number, z: number] {
  if (colour.mired === 0 && colour.duv === 0) return NO_CHANGE;
  const [x, , z] = tristimulus(colour);
  return [Math.log(x / WHITE[0]), Math.log(z / WHITE[2])];
}

/** A source's light at Y = 1. Beyond either end of the locus as it ran up to there. */
export function tristimulus({ mired, duv }: SourceColour): Tristimulus {
  const held = Math.min(WARMEST_MIRED, Math.max(COOLEST_MIRED, mired));
  const colour = colourOfWarmth(held, duv);
  if (held === mired) return xyToXyz(uvPrimeToXy(colour));
  const inward = colourOfWarmth(held - Math.sign(held), duv);
  const beyond = Math.abs(mired - held);
  return xyToXyz(
    uvPrimeToXy({
      uPrime: colour.uPrime + beyond * (colour.uPrime - inward.uPrime),
      vPrime: colour.vPrime + beyond * (colour.vPrime - inward.vPrime),
    }),
  );
}
