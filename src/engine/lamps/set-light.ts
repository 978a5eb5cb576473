import { uvPrimeToXy, xyToXyz } from '../colour/chromaticity.ts';
import { colourOfWarmth } from '../colour/colour-of-warmth.ts';
import { lensShare } from './lens-share.ts';
import type { LitSet, SourceColour } from './lit-set.ts';
import { panelLight } from './panel-light.ts';
import { type LightAt, seenLight } from './seen-light.ts';
import { spillLight } from './spill-light.ts';

/** Linear tristimulus light X, Y, Z, adapted to D65: any linear RGB is a matrix away, and light adds up in it. */
export type Tristimulus = readonly [x: number, y: number, z: number];

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
  const share: LightAt = set.lens === null ? () => 1 : lensShare(set.lens, set.aspect);
  return (x, y) => {
    let [sumX, sumY, sumZ] = [0, 0, 0];
    for (const { level, colour } of sources) {
      const light = level(x, y);
      sumX += light * colour[0];
      sumY += light * colour[1];
      sumZ += light * colour[2];
    }
    const through = share(x, y);
    return [sumX * through, sumY * through, sumZ * through];
  };
}

function tristimulus({ mired, duv }: SourceColour): Tristimulus {
  return xyToXyz(uvPrimeToXy(colourOfWarmth(mired, duv)));
}
