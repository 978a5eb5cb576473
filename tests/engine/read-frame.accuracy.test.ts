import { describe, expect, test } from 'vitest';
import type { Measurement } from '../../src/engine/reading.ts';
import { type FieldTruth, fieldTruth } from '../synthetic/field-truth.ts';
import { randomField } from '../synthetic/known-field.ts';
import { CODINGS, fileOf, knownOf, measureBytes } from './known-frames.ts';

const FRAMES = 24;
const [WIDTH, HEIGHT] = [1200, 800];
/** Below this the direction of a slope is not asked for. */
const SLOPE_EV = 0.1;

interface Errors {
  /** Root mean square over the cells of a frame: stops, and distance in u′v′. */
  readonly ev: number;
  readonly uv: number;
  readonly deg: number;
  /** Of the gradient's stops, as a share of the truth. */
  readonly stops: number;
  readonly mired: number;
  readonly castUv: number;
  readonly castMired: number;
  readonly castDuv: number;
}

const LIMITS_16_BIT: Errors = {
  ev: 0.0015,
  uv: 0.00015,
  deg: 1,
  stops: 0.02,
  mired: 1,
  castUv: 0.0003,
  castMired: 1,
  castDuv: 0.0003,
};
const LIMITS_8_BIT: Errors = { ...LIMITS_16_BIT, ev: 0.002, uv: 0.0002 };
const LIMITS_JPEG: Errors = { ...LIMITS_16_BIT, ev: 0.006, uv: 0.001 };

const rms = (values: readonly number[]) =>
  Math.sqrt(values.reduce((sum, v) => sum + v * v, 0) / values.length);

/** Errors of one reading; NaN for what is not asked of it. */
function errorsOf({ falloff, tint, gradient, cast }: Measurement, truth: FieldTruth): Errors {
  const hasSlope = truth.gradient.ev > SLOPE_EV;
  const turn = (((gradient.angleDeg ?? Number.NaN) - truth.gradient.angleDeg + 540) % 360) - 180;
  return {
    ev: rms(falloff.evMap.map((ev, i) => ev! - truth.evMap[i]!)),
    uv: rms(
      tint.uPrimeMap.map((u, i) =>
        Math.hypot(u! - truth.uPrimeMap[i]!, tint.vPrimeMap[i]! - truth.vPrimeMap[i]!),
      ),
    ),
    deg: hasSlope ? Math.abs(turn) : Number.NaN,
    stops: hasSlope ? Math.abs(gradient.ev / truth.gradient.ev - 1) : Number.NaN,
    mired: hasSlope ? Math.abs(gradient.mired! - truth.gradient.mired) : Number.NaN,
    castUv: Math.hypot(cast.uPrime - truth.cast.uPrime, cast.vPrime - truth.cast.vPrime),
    castMired: Math.abs(cast.mired! - truth.cast.mired),
    castDuv: Math.abs(cast.duv! - truth.cast.duv),
  };
}

describe.each(CODINGS.filter((coding) => coding !== '8 bit noise-free'))(
  'known fields up to 3 EV, %s',
  (coding) => {
    test('are read back within the stated limits', { timeout: 600_000 }, async () => {
      const frames: Errors[] = [];
      for (let seed = 1; seed <= FRAMES; seed++) {
        const { field } = randomField(seed);
        const { measurement } = await measureBytes(
          await fileOf(field, coding, WIDTH, HEIGHT, seed),
          undefined,
          knownOf(coding),
        );
        frames.push(
          errorsOf(measurement, fieldTruth(field, { ...measurement.grid, widthPx: WIDTH, heightPx: HEIGHT })),
        );
      }
      const limits = coding === '16 bit' ? LIMITS_16_BIT : coding === '8 bit' ? LIMITS_8_BIT : LIMITS_JPEG;
      const held: [figure: string, worst: number, limit: number][] = [];
      for (const [figure, limit] of Object.entries(limits) as [keyof Errors, number][]) {
        const errors = frames.map((frame) => frame[figure]).filter((error) => !Number.isNaN(error));
        const worst = Math.max(...errors);
        console.log(
          `measured: ${coding}, ${figure}: rms ${rms(errors).toPrecision(3)}, worst of ${errors.length} frames ` +
            `${worst.toPrecision(3)}, limit ${limit}`,
        );
        held.push([figure, worst, limit]);
      }
      for (const [figure, worst, limit] of held) expect(worst, figure).toBeLessThanOrEqual(limit);
    });
  },
);
