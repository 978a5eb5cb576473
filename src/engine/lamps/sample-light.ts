import { xyzToUvPrime } from '../colour/chromaticity.ts';
import type { LitSet } from './lit-set.ts';
import { passedOn, setSources } from './set-light.ts';
import type { SetSamples } from './set-samples.ts';

/** A set's light at the samples: stops, and chromaticity. */
export interface SampleLight {
  readonly ev: Float64Array;
  readonly uPrime: Float64Array;
  readonly vPrime: Float64Array;
}

/**
 * Works out sets' light at fixed spots, again and again. What a source throws is kept until something that it
 * depends on changes: nearly all of a derivative's time is saved.
 */
export function sampleLighter({
  x,
  y,
}: Pick<SetSamples, 'x' | 'y'>): (set: LitSet, into: SampleLight) => void {
  const count = x.length;
  const kept: { on: readonly number[]; levels: Float64Array }[] = [];
  return (set, into) => {
    const sources = setSources(set);
    const levels = sources.map(({ level }, s) => {
      const on = dependsOn(set, s);
      let held = kept[s];
      if (held === undefined) {
        held = { on: [], levels: new Float64Array(count) };
        kept[s] = held;
      }
      if (!sameNumbers(held.on, on)) {
        for (let i = 0; i < count; i++) held.levels[i] = level(x[i]!, y[i]!);
        held.on = on;
      }
      return held.levels;
    });
    const through = passedOn(set);
    for (let i = 0; i < count; i++) {
      let [sumX, sumY, sumZ] = [0, 0, 0];
      for (let s = 0; s < sources.length; s++) {
        const light = levels[s]![i]!;
        const { colour } = sources[s]!;
        sumX += light * colour[0];
        sumY += light * colour[1];
        sumZ += light * colour[2];
      }
      const [lensX, lensY, lensZ] = through(x[i]!, y[i]!);
      into.ev[i] = Math.log2(sumY * lensY);
      const { uPrime, vPrime } = xyzToUvPrime(sumX * lensX, sumY * lensY, sumZ * lensZ);
      into.uPrime[i] = uPrime;
      into.vPrime[i] = vPrime;
    }
  };
}

export function emptySampleLight(count: number): SampleLight {
  return { ev: new Float64Array(count), uPrime: new Float64Array(count), vPrime: new Float64Array(count) };
}

/** All that a source's level at a spot follows from. */
function dependsOn(set: LitSet, source: number): readonly number[] {
  const light = set.lights[source];
  const { panel, spill, sheet } = set;
  if (light !== undefined) {
    const { x, y, distance, aimX, aimY, face, beamPower, strengthEv } = light;
    const size = face.kind === 'disc' ? [face.radius] : [face.width, face.height];
    const through = sheet === null ? [] : [sheet.forwardShare, sheet.lobeRad, set.cameraDistance];
    return [x, y, distance, aimX, aimY, ...size, beamPower, strengthEv, ...through];
  }
  if (source === set.lights.length && panel !== null) {
    const { colour: _colour, ...profile } = panel;
    return Object.values(profile);
  }
  return [spill!.levelEv, spill!.rightEv, spill!.downEv];
}

function sameNumbers(a: readonly number[], b: readonly number[]): boolean {
  return a.length === b.length && a.every((value, i) => value === b[i]);
}
