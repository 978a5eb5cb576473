import { type SeededRandom, seededRandom } from '../../src/engine/numeric/seeded-random.ts';
import { FIELD_FAMILIES, type FieldFamily, type FieldShape, randomShape } from './field-families.ts';

/**
 * Linear scene light in sRGB primaries at a frame position (0 to 1, y down), about 0 to 1; over 1 clips.
 */
export type KnownField = (x: number, y: number) => readonly [number, number, number];

export interface RandomFieldOptions {
  readonly family?: FieldFamily;
  /** Range of the green channel over the frame, stops; drawn log-uniformly from 0.05 to 3 where left out. */
  readonly spreadEv?: number;
  /** Largest range of log2 R/G and of log2 B/G over the frame, stops. */
  readonly largestTintEv?: number;
  /** Largest overall log2 R/G and log2 B/G, stops. */
  readonly largestCastEv?: number;
  /** Brightest channel's highest value; drawn from 0.5 to 0.93 where left out. */
  readonly peak?: number;
}

export interface DrawnField {
  readonly field: KnownField;
  readonly family: FieldFamily;
  readonly spreadEv: number;
  /** One line for a failing test's message. */
  readonly describe: string;
}

/** Draws a field of light with a tint gradient of its own direction and an overall cast; repeatable by its seed. */
export function randomField(seed: number, options: RandomFieldOptions = {}): DrawnField {
  const random = seededRandom(seed);
  const between = (low: number, high: number) => low + (high - low) * random.uniform();
  const drawnFamily = FIELD_FAMILIES[Math.floor(random.uniform() * FIELD_FAMILIES.length)]!;
  const drawnSpreadEv = 2 ** between(Math.log2(0.05), Math.log2(3));
  const family = options.family ?? drawnFamily;
  const spreadEv = options.spreadEv ?? drawnSpreadEv;
  const largestTintEv = options.largestTintEv ?? 0.25;
  const largestCastEv = options.largestCastEv ?? 0.2;
  const level = scaledToRange(randomShape(family, random), spreadEv);
  const [redCast, blueCast] = [
    between(-largestCastEv, largestCastEv),
    between(-largestCastEv, largestCastEv),
  ];
  const redTint = randomTint(random, between(0, largestTintEv));
  const blueTint = randomTint(random, between(0, largestTintEv));
  const unscaled: KnownField = (x, y) => {
    const green = level(x, y);
    return [exp2(green + redCast + redTint(x, y)), exp2(green), exp2(green + blueCast + blueTint(x, y))];
  };
  const drawnPeak = between(0.5, 0.93);
  const peak = options.peak ?? drawnPeak;
  const field = scaledToPeak(unscaled, peak);
  const describe = `seed ${seed}: ${family}, ${spreadEv.toFixed(3)} EV, peak ${peak.toFixed(2)}, cast R/G ${redCast.toFixed(3)} B/G ${blueCast.toFixed(3)} EV`;
  return { field, family, spreadEv, describe };
}

/** Scales a field so that its brightest channel's highest value is `peak`; proportions are kept. */
export function scaledToPeak(field: KnownField, peak: number): KnownField {
  let highest = 0;
  forEachLatticePoint((x, y) => {
    highest = Math.max(highest, ...field(x, y));
  });
  const factor = peak / highest;
  return (x, y) => {
    const [red, green, blue] = field(x, y);
    return [red * factor, green * factor, blue * factor];
  };
}

/** The same field turned through all exposures: light × 2^stops. */
export function exposedBy(field: KnownField, stops: number): KnownField {
  const factor = 2 ** stops;
  return (x, y) => {
    const [red, green, blue] = field(x, y);
    return [red * factor, green * factor, blue * factor];
  };
}

const exp2 = (stops: number) => Math.exp(stops * Math.LN2);

/** Mostly a slope, a quarter of it bent, so that no colour plane describes it fully. */
function randomTint(random: SeededRandom, rangeEv: number): FieldShape {
  const plane = scaledToRange(randomShape('plane', random), 0.75 * rangeEv);
  const bent = scaledToRange(randomShape('quadratic', random), 0.25 * rangeEv);
  return (x, y) => plane(x, y) + bent(x, y) + 0.5 * rangeEv;
}

/** Maps a shape's range over the frame onto −rangeEv to 0. */
function scaledToRange(shape: FieldShape, rangeEv: number): FieldShape {
  let lowest = Number.POSITIVE_INFINITY;
  let highest = Number.NEGATIVE_INFINITY;
  forEachLatticePoint((x, y) => {
    const value = shape(x, y);
    lowest = Math.min(lowest, value);
    highest = Math.max(highest, value);
  });
  const factor = rangeEv / (highest - lowest);
  return (x, y) => (shape(x, y) - highest) * factor;
}

function forEachLatticePoint(visit: (x: number, y: number) => void): void {
  const steps = 64;
  for (let row = 0; row <= steps; row++)
    for (let column = 0; column <= steps; column++) visit(column / steps, row / steps);
}
