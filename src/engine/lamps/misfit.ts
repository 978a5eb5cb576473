import type { Residuals } from '../numeric/least-squares.ts';
import type { LitSet } from './lit-set.ts';
import { emptySampleLight, type SampleLight, sampleLighter } from './sample-light.ts';
import type { SampleError, SeenFrame } from './seen-frames.ts';
import type { SetModel } from './set-model.ts';

type Lighting = (set: LitSet, into: SampleLight) => void;

/** How far a point of the family is from frames whose samples err by so much, and from what is expected of it. */
export function misfit(model: SetModel, frames: readonly SeenFrame[], errors: readonly SampleError[]) {
  const parts = frames.map((frame, i) => frameMisfit(frame, errors[i]!));
  const inFrames = parts.reduce((sum, { length }) => sum + length, 0);
  return {
    length: inFrames + model.parameters.length,
    residuals(point: Float64Array, into: Float64Array): void {
      const set = model.setAt(point);
      let at = 0;
      for (const part of parts) {
        part.residuals(set, into, at);
        at += part.length;
      }
      into.set(point, at);
    },
    near(point: Float64Array): Residuals {
      const set = model.setAt(point);
      const nears = parts.map((part) => part.near(set));
      return (moved, into) => {
        const next = model.setAt(moved);
        let at = 0;
        parts.forEach((part, i) => {
          nears[i]!(next, into, at);
          at += part.length;
        });
        into.set(moved, at);
      };
    },
    leftOver(point: Float64Array): SampleError[] {
      const set = model.setAt(point);
      return parts.map((part) => part.leftOver(set));
    },
  };
}

/**
 * One frame's part: stops, u′ and v′ of each sample, and for a second frame how far its level as a whole is off. That
 * is taken out of its stops, as all of them err by it alike.
 */
function frameMisfit(frame: SeenFrame, error: SampleError) {
  const { samples, seen, levelDeviationEv, offsetEv, independentSamples } = frame;
  const count = samples.x.length;
  const lighter = sampleLighter(samples);
  const light = emptySampleLight(count);
  const off = new Float64Array(count);
  const offU = new Float64Array(count);
  const offV = new Float64Array(count);
  const shares = Math.sqrt(Math.max(1, count / independentSamples));
  const [perEv, perUv] = [1 / (error.ev * shares), 1 / (error.uv * shares)];
  /** Writes how far each sample's stops are off beside the level; returns that. */
  const levelOff = (set: LitSet, workOut: Lighting = lighter): number => {
    workOut(seen(set), light);
    let sum = 0;
    for (let i = 0; i < count; i++) {
      off[i] = light.ev[i]! - samples.ev[i]! - offsetEv;
      sum += off[i]!;
    }
    if (levelDeviationEv === null) return 0;
    for (let i = 0; i < count; i++) off[i]! -= sum / count;
    return sum / count;
  };
  /** Writes how far each sample's colour is off: of an earlier take beside what all of it shares. */
  const colourOff = (): void => {
    let [sumU, sumV] = [0, 0];
    for (let i = 0; i < count; i++) {
      offU[i] = light.uPrime[i]! - samples.uPrime[i]!;
      offV[i] = light.vPrime[i]! - samples.vPrime[i]!;
      sumU += offU[i]!;
      sumV += offV[i]!;
    }
    if (!frame.isEarlier) return;
    for (let i = 0; i < count; i++) {
      offU[i]! -= sumU / count;
      offV[i]! -= sumV / count;
    }
  };
  const residuals = (set: LitSet, into: Float64Array, at: number, workOut: Lighting = lighter): void => {
    const level = levelOff(set, workOut);
    colourOff();
    for (let i = 0; i < count; i++) {
      into[at + i] = off[i]! * perEv;
      into[at + count + i] = offU[i]! * perUv;
      into[at + 2 * count + i] = offV[i]! * perUv;
    }
    if (levelDeviationEv !== null)
      into[at + 3 * count] = level / Math.hypot(levelDeviationEv, error.ev / Math.sqrt(count));
  };
  return {
    length: 3 * count + (levelDeviationEv === null ? 0 : 1),
    residuals,
    near(set: LitSet): typeof residuals {
      const near = lighter.near(seen(set));
      return (next, into, at) => residuals(next, into, at, near);
    },
    leftOver(set: LitSet): SampleError {
      levelOff(set);
      colourOff();
      let [ev, uv] = [0, 0];
      for (let i = 0; i < count; i++) {
        ev += off[i]! ** 2;
        uv += offU[i]! ** 2 + offV[i]! ** 2;
      }
      return { ev: Math.sqrt(ev / count), uv: Math.sqrt(uv / (2 * count)) };
    },
  };
}
