import type { LitSet, SourceColour } from './lit-set.ts';
import { panelLight } from './panel-light.ts';
import { passedOn } from './passed-on.ts';
import { type LightAt, seenLight } from './seen-light.ts';
import { spillLight } from './spill-light.ts';
import { type Tristimulus, tristimulus } from './tristimulus.ts';

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
  const spot = { x: new Float64Array(1), y: new Float64Array(1) };
  const through = new Float64Array(3);
  return (x, y) => {
    let [sumX, sumY, sumZ] = [0, 0, 0];
    for (const { level, colour } of sources) {
      const light = level(x, y);
      sumX += light * colour[0];
      sumY += light * colour[1];
      sumZ += light * colour[2];
    }
    spot.x[0] = x;
    spot.y[0] = y;
    passedOn(set, spot, through);
    return [sumX * through[0]!, sumY * through[1]!, sumZ * through[2]!];
  };
}
