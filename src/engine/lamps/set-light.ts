import { uvPrimeToXy, xyToXyz } from '../colour/chromaticity.ts';
import { colourOfWarmth } from '../colour/colour-of-warmth.ts';
import { lensShare } from './lens-share.ts';
import type { LitSet, SourceColour } from './lit-set.ts';
import { panelLight } from './panel-light.ts';
import { type LightAt, seenLight } from './seen-light.ts';
import { spillLight } from './spill-light.ts';

/** Linear tristimulus light X, Y, Z, adapted to D65: any linear RGB is a matrix away, and light adds up in it. */
export type Tristimulus = readonly [x: number, y: number, z: number];

const WHITE = tristimulus({ mired: 0, duv: 0 });

/** One source of a set: how it falls, and its colour at Y = 1. */
export interface SourceLight {
  readonly kind: 'light' | 'panel' | 'spill';
  readonly level: LightAt;
  readonly colour: Tristimulus;
}

/** The sources of a set, lights first, then panel and spill. The lens is not in them. */
export function setSources(set: LitSet): readonly SourceLight[] {
  const lights = set.lights.map(
    (light): SourceLight => ({
      kind: 'light',
      level: seenLight(set, light),
      colour: tristimulus(light.colour),
    }),
  );
  const { panel, spill } = set;
  return [
    ...lights,
    ...(panel
      ? [{ kind: 'panel', level: panelLight(panel), colour: tristimulus(panel.colour) } as const]
      : []),
    ...(spill
      ? [{ kind: 'spill', level: spillLight(spill), colour: tristimulus(spill.colour) } as const]
      : []),
  ];
}

/**
 * What the camera records of a set at a spot of the frame (frame widths about its middle): the sources' light added
 * up, times what the lens lets through. A mixture of two lights so lies on the line between their chromaticities.
 */
export function setLight(set: LitSet): (x: number, y: number) => Tristimulus {
  const sources = setSources(set);
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
 * What surface and lens let through of X, Y and Z at a spot, luminance by the lens alone: a tint is told by its
 * colour.
 */
export function passedOn({ lens, tint, aspect }: LitSet): (x: number, y: number) => Tristimulus {
  const share: LightAt = lens === null ? () => 1 : lensShare(lens, aspect);
  const corner = lens === null ? NO_CHANGE : change(lens.corner);
  const right = tint === null ? NO_CHANGE : change({ mired: tint.rightMired, duv: tint.rightDuv });
  const down = tint === null ? NO_CHANGE : change({ mired: tint.downMired, duv: tint.downDuv });
  const cornerSquare = (1 + aspect * aspect) / 4;
  return (x, y) => {
    const through = share(x, y);
    const square = (x * x + y * y) / cornerSquare;
    return [
      through * Math.exp(corner[0] * square + right[0] * x + down[0] * y),
      through,
      through * Math.exp(corner[1] * square + right[1] * x + down[1] * y),
    ];
  };
}

const NO_CHANGE = [0, 0] as const;

/** A change of colour as natural logarithms of X and Z at the same Y. */
function change(colour: SourceColour): readonly [x: number, z: number] {
  if (colour.mired === 0 && colour.duv === 0) return NO_CHANGE;
  const [x, , z] = tristimulus(colour);
  return [Math.log(x / WHITE[0]), Math.log(z / WHITE[2])];
}

function tristimulus({ mired, duv }: SourceColour): Tristimulus {
  return xyToXyz(uvPrimeToXy(colourOfWarmth(mired, duv)));
}
