import type { FrameRectangle, Reading } from '../reading.ts';
import { type PartGrid, partOfMap } from './part-of-map.ts';

/** A change from one reading to another, with its ±: the root of the sum of both readings' squares. */
export interface Change {
  readonly value: number;
  readonly plusMinus: number;
}

/** What became of the light from one reading to another, over the part of the frame that both show. */
export interface Comparison extends PartGrid {
  /** Stops by which each cell changed, less what changed in common; NaN where either has no measurement. */
  readonly evMap: Float64Array;
  /** Root mean square of {@link evMap}. Its ± is what noise alone can make of it: never less than the noise's own. */
  readonly rmsEv: Change;
  /** Half-width of the 95 % interval of one cell of {@link evMap}. */
  readonly cellPlusMinusEv: number;
  /** u′v′ by which each cell changed, less what changed in common. */
  readonly deltaUPrimeMap: Float64Array;
  readonly deltaVPrimeMap: Float64Array;
  readonly rmsDeltaUv: number;
  /** Stops that the cells' own falloffs, each told against its brightest, moved against each other in common. */
  readonly commonEv: number;
  /** Of the spread in stops; `null` where clipping hides some of either. */
  readonly spread: Change | null;
  /** Of the spread in u′v′. */
  readonly tint: Change;
  /** How far the whole moved in u′v′, as a distance. */
  readonly cast: Change & { readonly deltaUPrime: number; readonly deltaVPrime: number };
}

/** Why two readings can't be held against each other. */
export type NotComparable = 'turned' | 'other-shape' | 'nothing-in-common';

/** Cameras and converters trim a file by some pixels; another crop is far beyond this. */
const SAME_SHAPE = 0.01;
/** A common part of fewer cells along a side tells no shape. */
const LEAST_CELLS = 4;

/**
 * Holds one reading against an earlier one by positions across the frame, over what was read of both, in cells as large as
 * the larger ones. Said of where the camera stood: nothing; that it did not move is for whoever compares to know.
 */
export function compareReadings(now: Reading, before: Reading): Comparison | NotComparable {
  const shape = ({ frame }: Reading) => frame.widthPx / frame.heightPx;
  if (!isOne(shape(now) / shape(before))) return isOne(shape(now) * shape(before)) ? 'turned' : 'other-shape';
  const part = commonPart(now, before);
  if (part === null) return 'nothing-in-common';
  const difference = (of: (reading: Reading) => readonly (number | null)[]) => {
    const from = partOfMap(before, of(before), part);
    return partOfMap(now, of(now), part).map((value, i) => value - from[i]!);
  };
  const ev = lessMean(difference(({ falloff }) => falloff.evMap));
  if (Number.isNaN(ev.mean)) return 'nothing-in-common';
  const u = lessMean(difference(({ tint }) => tint.uPrimeMap)).rest;
  const v = lessMean(difference(({ tint }) => tint.vPrimeMap)).rest;
  const cellPlusMinusEv = Math.hypot(now.falloff.cellPlusMinusEv, before.falloff.cellPlusMinusEv);
  const deltaUPrime = now.cast.uPrime - before.cast.uPrime;
  const deltaVPrime = now.cast.vPrime - before.cast.vPrime;
  return {
    ...part,
    evMap: ev.rest,
    // the root mean square of a sum differs from that of one part by at most that of the other
    rmsEv: { value: rootMeanSquare(ev.rest), plusMinus: cellPlusMinusEv },
    cellPlusMinusEv,
    deltaUPrimeMap: u,
    deltaVPrimeMap: v,
    rmsDeltaUv: rootMeanSquare(u.map((du, i) => Math.hypot(du, v[i]!))),
    commonEv: ev.mean,
    spread:
      now.falloff.isLowerBound || before.falloff.isLowerBound
        ? null
        : change(
            now.falloff.spreadEv,
            now.falloff.plusMinusEv,
            before.falloff.spreadEv,
            before.falloff.plusMinusEv,
          ),
    tint: change(
      now.tint.spreadDeltaUv,
      now.tint.plusMinusDeltaUv,
      before.tint.spreadDeltaUv,
      before.tint.plusMinusDeltaUv,
    ),
    cast: {
      ...{ deltaUPrime, deltaVPrime },
      value: Math.hypot(deltaUPrime, deltaVPrime),
      plusMinus: Math.hypot(now.cast.plusMinusDeltaUv, before.cast.plusMinusDeltaUv),
    },
  };
}

const isOne = (ratio: number) => Math.abs(ratio - 1) < SAME_SHAPE;

function change(now: number, plusMinusNow: number, before: number, plusMinusBefore: number): Change {
  return { value: now - before, plusMinus: Math.hypot(plusMinusNow, plusMinusBefore) };
}

/** What both regions share, in cells as wide and as high as the wider and the higher ones. */
function commonPart(a: Reading, b: Reading): PartGrid | null {
  const region: FrameRectangle = {
    left: Math.max(a.region.left, b.region.left),
    top: Math.max(a.region.top, b.region.top),
    right: Math.min(a.region.right, b.region.right),
    bottom: Math.min(a.region.bottom, b.region.bottom),
  };
  const wide = ({ region: { left, right }, grid }: Reading) => (right - left) / grid.columns;
  const high = ({ region: { top, bottom }, grid }: Reading) => (bottom - top) / grid.rows;
  const columns = Math.round((region.right - region.left) / Math.max(wide(a), wide(b)));
  const rows = Math.round((region.bottom - region.top) / Math.max(high(a), high(b)));
  return columns < LEAST_CELLS || rows < LEAST_CELLS ? null : { region, columns, rows };
}

function lessMean(values: Float64Array): { mean: number; rest: Float64Array } {
  const measured = values.filter((value) => !Number.isNaN(value));
  const mean = measured.reduce((sum, value) => sum + value, 0) / measured.length;
  return { mean, rest: values.map((value) => value - mean) };
}

function rootMeanSquare(values: Float64Array): number {
  const measured = values.filter((value) => !Number.isNaN(value));
  return Math.sqrt(measured.reduce((sum, value) => sum + value * value, 0) / measured.length);
}
