import type { Tolerance } from '../tolerance.ts';

/** Whether a window of cells passes, given the lowest and highest stops in it (infinite where a cell is missing). */
export type CropTest = (
  column: number,
  row: number,
  wide: number,
  tall: number,
  lowEv: number,
  highEv: number,
) => boolean;

/** The nine points row by row, taken in the order that tells soonest that a crop fails. */
const CORNERS_FIRST = [0, 8, 2, 6, 4, 1, 3, 5, 7];

/**
 * The tolerance's own measure, taken on a crop: range of stops; largest departure from the level at the crop's
 * centre; darkest against brightest of nine points (the centres of 3 × 3 equal zones); darkest against the mean
 * light. A crop that holds a missing cell (NaN) fails.
 */
export function cropPasses(ev: Float64Array, columns: number, rows: number, tolerance: Tolerance): CropTest {
  const { measure, limit } = tolerance;
  const light = ev.map((value) => 2 ** value);
  /** Light at a place counted in cells, bilinear between their centres, as a reading's own figures are taken. */
  const lightAt = (acrossCells: number, downCells: number) => {
    const left = Math.floor(acrossCells - 0.5);
    const top = Math.floor(downCells - 0.5);
    const x = acrossCells - 0.5 - left;
    const y = downCells - 0.5 - top;
    const cell = top * columns + left;
    const upper = x === 0 ? light[cell]! : light[cell]! * (1 - x) + light[cell + 1]! * x;
    if (y === 0) return upper;
    const below = cell + columns;
    return upper * (1 - y) + (x === 0 ? light[below]! : light[below]! * (1 - x) + light[below + 1]! * x) * y;
  };
  const complete = (lowEv: number) => lowEv > Number.NEGATIVE_INFINITY;

  switch (measure) {
    case 'range':
      return (_column, _row, _wide, _tall, lowEv, highEv) => highEv - lowEv <= limit;

    case 'from-centre': {
      // No centre can serve both extremes where they lie farther apart than this.
      const widestEv = Math.log2((1 + limit) / (1 - limit)) + 1e-9;
      return (column, row, wide, tall, lowEv, highEv) => {
        if (!complete(lowEv) || highEv - lowEv > widestEv) return false;
        const centre = lightAt(column + wide / 2, row + tall / 2);
        return 2 ** highEv / centre - 1 <= limit && 1 - 2 ** lowEv / centre <= limit;
      };
    }

    case 'nine-point-min-max': {
      const surelyEv = -Math.log2(limit) - 1e-9;
      let points: readonly PointInWindow[] = [];
      let [pointsWide, pointsTall] = [0, 0];
      return (column, row, wide, tall, lowEv, highEv) => {
        if (!complete(lowEv)) return false;
        if (highEv - lowEv <= surelyEv) return true;
        if (wide !== pointsWide || tall !== pointsTall) {
          points = CORNERS_FIRST.map((point) => pointInWindow(point, wide, tall, columns));
          [pointsWide, pointsTall] = [wide, tall];
        }
        const first = row * columns + column;
        let low = Number.POSITIVE_INFINITY;
        let high = 0;
        for (const { cell, right, below, x, y } of points) {
          const at = first + cell;
          const upper = light[at]! * (1 - x) + light[at + right]! * x;
          const lower = light[at + below]! * (1 - x) + light[at + below + right]! * x;
          const value = upper * (1 - y) + lower * y;
          if (value < low) low = value;
          if (value > high) high = value;
          if (low < limit * high) return false;
        }
        return true;
      };
    }

    case 'min-over-mean': {
      const sums = summedLight(ev, columns, rows);
      const stride = columns + 1;
      return (column, row, wide, tall, lowEv) => {
        if (!complete(lowEv)) return false;
        const top = row * stride + column;
        const bottom = (row + tall) * stride + column;
        const sum = sums[bottom + wide]! - sums[bottom]! - sums[top + wide]! + sums[top]!;
        return 2 ** lowEv >= (limit * sum) / (wide * tall);
      };
    }
  }
}

/** One of nine points of a window: cells from the window's first one, and how far towards the next across and down. */
interface PointInWindow {
  readonly cell: number;
  /** Steps to the cells across and below; 0 where these have no part in it, and may not be there. */
  readonly right: number;
  readonly below: number;
  readonly x: number;
  readonly y: number;
}

/** The centre of a zone lies in one place of every window of a size; in one of a cell or two it is held to a centre. */
function pointInWindow(point: number, wide: number, tall: number, columns: number): PointInWindow {
  const across = Math.max(0.5, (((point % 3) + 0.5) / 3) * wide) - 0.5;
  const down = Math.max(0.5, ((Math.floor(point / 3) + 0.5) / 3) * tall) - 0.5;
  const [left, top] = [Math.floor(across), Math.floor(down)];
  const [x, y] = [across - left, down - top];
  return { cell: top * columns + left, right: x === 0 ? 0 : 1, below: y === 0 ? 0 : columns, x, y };
}

/** Summed-area table of linear light, one row and column of zeros ahead; a missing cell adds nothing. */
function summedLight(ev: Float64Array, columns: number, rows: number): Float64Array {
  const stride = columns + 1;
  const sums = new Float64Array(stride * (rows + 1));
  for (let row = 0; row < rows; row++) {
    let alongRow = 0;
    for (let column = 0; column < columns; column++) {
      const value = ev[row * columns + column]!;
      if (!Number.isNaN(value)) alongRow += 2 ** value;
      sums[(row + 1) * stride + column + 1] = sums[row * stride + column + 1]! + alongRow;
    }
  }
  return sums;
}
