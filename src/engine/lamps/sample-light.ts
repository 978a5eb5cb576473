import { xyzToUvPrime } from '../colour/chromaticity.ts';
import type { LitSet } from './lit-set.ts';
import { passedOn, setSources, tristimulus } from './set-light.ts';
import type { SetSamples } from './set-samples.ts';

/** A set's light at the samples: stops, and chromaticity. */
export interface SampleLight {
  readonly ev: Float64Array;
  readonly uPrime: Float64Array;
  readonly vPrime: Float64Array;
}

/**
 * Works out sets' light at fixed spots, again and again. What a source throws, and what surface and lens let through,
 * is kept until something that it depends on changes: nearly all of a derivative's time is saved.
 */
export function sampleLighter({
  x,
  y,
}: Pick<SetSamples, 'x' | 'y'>): (set: LitSet, into: SampleLight) => void {
  const count = x.length;
  const thrown: Kept[] = [];
  const colours: Kept[] = [];
  const through = kept(3 * count);
  const sum = new Float64Array(3 * count);
  return (set, into) => {
    sum.fill(0);
    setSources(set).forEach((source, s) => {
      thrown[s] ??= kept(count);
      colours[s] ??= kept(3);
      const strength = strengthOf(set, s);
      const { values } = upToDate(thrown[s], dependsOn(set, s), (levels) => {
        const level = source.level();
        for (let i = 0; i < count; i++) levels[i] = level(x[i]!, y[i]!) / strength;
      });
      const { mired, duv } = source.colour;
      const { values: colour } = upToDate(colours[s], [mired, duv], (xyz) =>
        xyz.set(tristimulus(source.colour)),
      );
      for (let c = 0; c < 3; c++) {
        const amount = strength * colour[c]!;
        for (let i = 0; i < count; i++) sum[c * count + i]! += values[i]! * amount;
      }
    });
    const { values: share } = upToDate(through, passingOn(set), (shares) => {
      const at = passedOn(set);
      for (let i = 0; i < count; i++) {
        const xyz = at(x[i]!, y[i]!);
        for (let c = 0; c < 3; c++) shares[c * count + i] = xyz[c]!;
      }
    });
    for (let i = 0; i < count; i++) {
      const atX = sum[i]! * share[i]!;
      const atY = sum[count + i]! * share[count + i]!;
      const atZ = sum[2 * count + i]! * share[2 * count + i]!;
      const { uPrime, vPrime } = xyzToUvPrime(atX, atY, atZ);
      into.ev[i] = Math.log2(atY);
      into.uPrime[i] = uPrime;
      into.vPrime[i] = vPrime;
    }
  };
}

/** Values at every spot, and the figures that they follow from. */
interface Kept {
  on: readonly number[];
  readonly values: Float64Array;
}

const kept = (length: number): Kept => ({ on: [Number.NaN], values: new Float64Array(length) });

function upToDate(held: Kept, on: readonly number[], workOut: (values: Float64Array) => void): Kept {
  if (!sameNumbers(held.on, on)) {
    workOut(held.values);
    held.on = on;
  }
  return held;
}

/** All that surface, rim and lens let through follows from. */
function passingOn({ lens, tint, rim }: LitSet): readonly number[] {
  return [
    ...(lens === null ? [] : [lens.squareEv, lens.fourthEv, lens.corner.mired, lens.corner.duv]),
    ...(tint === null ? [] : Object.values(tint as unknown as Record<string, number>)),
    ...(rim === null ? [] : Object.values(rim as unknown as Record<string, number>)),
  ];
}

export function emptySampleLight(count: number): SampleLight {
  return { ev: new Float64Array(count), uPrime: new Float64Array(count), vPrime: new Float64Array(count) };
}

/** What a source's light goes by, whatever else there is of it. */
function strengthOf(set: LitSet, source: number): number {
  const light = set.lights[source];
  if (light !== undefined) return 2 ** light.strengthEv;
  if (source === set.lights.length && set.panel !== null) return 2 ** set.panel.levelEv;
  return 2 ** set.spill!.levelEv;
}

/** All that a source's level at a spot follows from but its strength. */
function dependsOn(set: LitSet, source: number): readonly number[] {
  const light = set.lights[source];
  const { panel, spill, sheet } = set;
  if (light !== undefined) {
    const { x, y, distance, aimX, aimY, face, beamPower, beamEdge } = light;
    const edge = beamEdge === null ? [] : [beamEdge.angleRad, beamEdge.steepness];
    const size = face.kind === 'disc' ? [face.radius] : [face.width, face.height];
    const through = sheet === null ? [] : [sheet.forwardShare, sheet.lobeRad, set.cameraDistance];
    return [x, y, distance, aimX, aimY, ...size, beamPower, ...edge, ...through];
  }
  if (source === set.lights.length && panel !== null) {
    const { colour: _colour, levelEv: _level, ...profile } = panel;
    return Object.values(profile);
  }
  return [spill!.rightEv, spill!.downEv];
}

function sameNumbers(a: readonly number[], b: readonly number[]): boolean {
  return a.length === b.length && a.every((value, i) => value === b[i]);
}
