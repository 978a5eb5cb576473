import { type KeptValues, keptValues } from './kept-values.ts';
import type { Spots } from './light-thrown.ts';
import type { LitSet, PanelProfile, SetSpill, SourceColour } from './lit-set.ts';
import { panelLight } from './panel-light.ts';
import { passedOn } from './passed-on.ts';
import type { LightAt } from './seen-light.ts';
import { spillLight } from './spill-light.ts';
import { type ThrownAtSpots, thrownAtSpots } from './thrown-at-spots.ts';
import { tristimulus } from './tristimulus.ts';

/** A set's light at the samples: stops, and chromaticity. */
export interface SampleLight {
  readonly ev: Float64Array;
  readonly uPrime: Float64Array;
  readonly vPrime: Float64Array;
}

/** A set's light at fixed spots. */
export interface SampleLighter {
  (set: LitSet, into: SampleLight): void;
  /**
   * The light of sets next to one, to first order: for derivatives. Good until the lighter is asked for anything else.
   */
  near(set: LitSet): (next: LitSet, into: SampleLight) => void;
}

/** Whether what is worked out is kept, or lies beside what is. */
type Way = 'of' | 'near';

/**
 * Works out sets' light at fixed spots, again and again. What a source throws, and what surface and lens let through,
 * is kept until something that it depends on changes: nearly all of a derivative's time is saved.
 */
export function sampleLighter(spots: Spots): SampleLighter {
  const { x, y } = spots;
  const count = x.length;
  const thrown: ThrownAtSpots[] = [];
  const levels: KeptValues[] = [];
  const colours: KeptValues[] = [];
  const shares = keptValues(3 * count);
  const sum = new Float64Array(3 * count);
  const luminance = new Float64Array(count);

  const write = (level: LightAt, into: Float64Array) => {
    for (let i = 0; i < count; i++) into[i] = level(x[i]!, y[i]!);
  };
  const panelLevels = (panel: PanelProfile, s: number, way: Way) => {
    levels[s] ??= keptValues(count);
    return levels[s][way](shapeOf(panel), (into) => write(panelLight({ ...panel, levelEv: 0 }), into));
  };
  const spillLevels = (spill: SetSpill, s: number, way: Way) => {
    levels[s] ??= keptValues(count);
    const { rightEv, downEv } = spill;
    return levels[s][way]([rightEv, downEv], (into) => write(spillLight({ ...spill, levelEv: 0 }), into));
  };

  /** X, Y and Z of all sources, after each other. */
  const addUp = (set: LitSet, way: Way) => {
    const { lights, panel, spill } = set;
    sum.fill(0);
    const add = (s: number, values: Float64Array, levelEv: number, { mired, duv }: SourceColour) => {
      colours[s] ??= keptValues(3);
      const colour = colours[s][way]([mired, duv], (into) => into.set(tristimulus({ mired, duv })));
      const strength = 2 ** levelEv;
      const [atX, atY, atZ] = [strength * colour[0]!, strength * colour[1]!, strength * colour[2]!];
      for (let i = 0; i < count; i++) {
        const value = values[i]!;
        sum[i]! += value * atX;
        sum[count + i]! += value * atY;
        sum[2 * count + i]! += value * atZ;
      }
    };
    lights.forEach((light, s) => {
      thrown[s] ??= thrownAtSpots(spots);
      add(s, thrown[s][way](set, light), light.strengthEv, light.colour);
    });
    const s = lights.length;
    if (panel !== null) add(s, panelLevels(panel, s, way), panel.levelEv, panel.colour);
    const last = panel === null ? s : s + 1;
    if (spill !== null) add(last, spillLevels(spill, last, way), spill.levelEv, spill.colour);
    const through = shares[way](passingOn(set), (into) => passedOn(set, spots, into));
    for (let k = 0; k < 3 * count; k++) sum[k]! *= through[k]!;
  };
  const writeColour = ({ uPrime, vPrime }: SampleLight) => {
    for (let i = 0; i < count; i++) {
      // u′ and v′ as in xyzToUvPrime, without a pair for each spot
      const denominator = sum[i]! + 15 * sum[count + i]! + 3 * sum[2 * count + i]!;
      uPrime[i] = (4 * sum[i]!) / denominator;
      vPrime[i] = (9 * sum[count + i]!) / denominator;
    }
  };
  const light = (set: LitSet, into: SampleLight) => {
    addUp(set, 'of');
    for (let i = 0; i < count; i++) into.ev[i] = Math.log2(sum[count + i]!);
    writeColour(into);
  };
  const near = (set: LitSet) => {
    set.lights.forEach((each, s) => {
      thrown[s] ??= thrownAtSpots(spots);
      thrown[s].about(set, each);
    });
    addUp(set, 'of');
    luminance.set(sum.subarray(count, 2 * count));
    const ev = luminance.map(Math.log2);
    return (next: LitSet, into: SampleLight) => {
      addUp(next, 'near');
      for (let i = 0; i < count; i++)
        into.ev[i] = ev[i]! + (sum[count + i]! / luminance[i]! - 1) * Math.LOG2E;
      writeColour(into);
    };
  };
  return Object.assign(light, { near });
}

export function emptySampleLight(count: number): SampleLight {
  return { ev: new Float64Array(count), uPrime: new Float64Array(count), vPrime: new Float64Array(count) };
}

/** All that a panel's light follows from but its strength and colour. */
function shapeOf(panel: PanelProfile): readonly number[] {
  const { x, y, acrossEv, downEv, rightEv, bottomEv, halfWidth, halfHeight } = panel;
  return [x, y, acrossEv, downEv, rightEv, bottomEv, halfWidth, halfHeight];
}

/** All that surface, rim and lens let through follows from. */
function passingOn({ lens, tint, rim }: LitSet): readonly number[] {
  const on: number[] =
    lens === null ? [] : [lens.squareEv, lens.fourthEv, lens.corner.mired, lens.corner.duv];
  if (tint !== null)
    on.push(
      tint.x,
      tint.y,
      tint.rightMired,
      tint.downMired,
      tint.duvPerMired,
      tint.lossEvPerMired,
      tint.soft,
    );
  if (rim !== null) on.push(rim.left, rim.right, rim.top, rim.bottom, rim.lossEv, rim.soft);
  return on;
}
