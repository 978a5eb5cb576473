import { quantile } from '../../numeric/quantile.ts';
import type { LightPlanes } from './light-planes.ts';
import { boxMean } from './plane-sums.ts';

/** How far the frame's view lies to the right of and below the blank's, in cells. */
export interface Shift {
  readonly right: number;
  readonly down: number;
}

/** Farthest bump that is looked for, in cells each way. */
export const FARTHEST_SHIFT = 5;
/** Detail is what stands out from squares of this reach. */
const DETAIL_REACH = 4;
/** Detail beyond so many median deviations of the blank's is held to it, so that no subject outweighs the rest. */
const HELD_TO = 6;
/** Correlation, times the root of the number of cells, from which detail is more than chance or a JPEG's blocks. */
const BEYOND_CHANCE = 15;
const LEAST_LIGHT = 1 / 4096;
/** So many cells tell a shift; of more, rows are left out. */
const ENOUGH_CELLS = 300_000;

/**
 * Finds the shift at which the background's own detail (dust, weave, seams) lies in both frames alike, to a part of a
 * cell. `null` where there is no such detail: then a shift changes nothing that could be seen either.
 */
export function registerBlank(frame: LightPlanes, blank: LightPlanes): Shift | null {
  const { columns, rows } = frame;
  const its = detailOf(blank);
  const limit = HELD_TO * quantile(its.filter((_, at) => at % 7 === 0).map(Math.abs), 0.5);
  if (!(limit > 0)) return null;
  const own = detailOf(frame).map((value) => held(value, limit));
  const blankDetail = its.map((value) => held(value, limit));
  const at = (right: number, down: number) => correlation(own, blankDetail, columns, rows, right, down);
  let best = { right: 0, down: 0, value: at(0, 0) };
  for (let down = -FARTHEST_SHIFT; down <= FARTHEST_SHIFT; down++) {
    for (let right = -FARTHEST_SHIFT; right <= FARTHEST_SHIFT; right++) {
      const value = at(right, down);
      if (value > best.value) best = { right, down, value };
    }
  }
  if (!(best.value * Math.sqrt(Math.min(columns * rows, ENOUGH_CELLS)) > BEYOND_CHANCE)) return null;
  const { right, down, value } = best;
  return {
    right: right + peakBetween(at(right - 1, down), value, at(right + 1, down)),
    down: down + peakBetween(at(right, down - 1), value, at(right, down + 1)),
  };
}

/** The blank as it would have been taken from the frame's place; its edge repeats where nothing was seen. */
export function shiftedPlanes(planes: LightPlanes, { right, down }: Shift): LightPlanes {
  if (right === 0 && down === 0) return planes;
  const { columns, rows } = planes;
  const inside = (value: number, last: number) => Math.min(Math.max(value, 0), last);
  const shifted = planes.light.map((plane) => {
    const moved = new Float32Array(plane.length);
    for (let row = 0, at = 0; row < rows; row++) {
      const y = inside(row + down, rows - 1);
      const above = Math.min(Math.floor(y), rows - 2);
      for (let column = 0; column < columns; column++, at++) {
        const x = inside(column + right, columns - 1);
        const left = Math.min(Math.floor(x), columns - 2);
        const from = above * columns + left;
        const [u, v] = [x - left, y - above];
        moved[at] =
          (1 - v) * ((1 - u) * plane[from]! + u * plane[from + 1]!) +
          v * ((1 - u) * plane[from + columns]! + u * plane[from + columns + 1]!);
      }
    }
    return moved;
  });
  return { columns, rows, light: [shifted[0]!, shifted[1]!, shifted[2]!] };
}

function detailOf({ columns, rows, light }: LightPlanes): Float32Array {
  const stops = light[1].map((value) => Math.log2(Math.max(value, 0) + LEAST_LIGHT));
  const around = boxMean(stops, columns, rows, DETAIL_REACH);
  return stops.map((value, at) => value - around[at]!);
}

function held(value: number, limit: number): number {
  return Math.min(Math.max(value, -limit), limit);
}

function correlation(
  own: Float32Array,
  its: Float32Array,
  columns: number,
  rows: number,
  right: number,
  down: number,
): number {
  let product = 0;
  let ownSquares = 0;
  let itsSquares = 0;
  const margin = FARTHEST_SHIFT + 1;
  const every = Math.max(1, Math.round((columns * rows) / ENOUGH_CELLS));
  for (let row = margin; row < rows - margin; row += every) {
    let a = row * columns + margin;
    let b = a + down * columns + right;
    for (let column = margin; column < columns - margin; column++, a++, b++) {
      product += own[a]! * its[b]!;
      ownSquares += own[a]! ** 2;
      itsSquares += its[b]! ** 2;
    }
  }
  return ownSquares > 0 && itsSquares > 0 ? product / Math.sqrt(ownSquares * itsSquares) : 0;
}

/** Where a parabola through three equally spaced values has its top, in steps from the middle. */
function peakBetween(before: number, middle: number, after: number): number {
  const bend = before - 2 * middle + after;
  return bend < 0 ? Math.min(Math.max((0.5 * (before - after)) / bend, -0.5), 0.5) : 0;
}
