import { describe, expect, test } from 'vitest';
import { type FalloffInput, falloff, withNulls } from '../../../src/engine/maps/falloff.ts';
import { WHOLE_FRAME } from '../../../src/engine/reading.ts';
import { expectWithin } from '../../expect-within.ts';

function inputOf(
  luminance: readonly number[],
  columns: number,
  rest: Partial<FalloffInput> = {},
): FalloffInput {
  const finite = luminance.filter((value) => !Number.isNaN(value));
  return {
    columns,
    rows: luminance.length / columns,
    region: WHOLE_FRAME,
    cellWidth: 1 / columns,
    cellHeight: 1 / columns,
    luminance: Float64Array.from(luminance),
    brightestCell: luminance.indexOf(Math.max(...finite)),
    darkestCell: luminance.indexOf(Math.min(...finite)),
    isLowerBound: false,
    plusMinusEv: 0.01,
    cellPlusMinusEv: 0.002,
    ...rest,
  };
}

describe('falloff of nine cells, worked out by hand', () => {
  // 3 × 3 cells are the nine zones themselves
  const nine = [0.4, 0.8, 0.4, 0.5, 0.5, 0.2, 0.4, 0.4, 0.4];
  const figures = falloff(inputOf(nine, 3));

  test('has the spread, its ratio, and the places of its ends', () => {
    expectWithin(figures.spreadEv, 2, 1e-12);
    expectWithin(figures.minOverMax, 0.25, 1e-12);
    expectWithin(figures.ninePointMinOverMax, 0.25, 1e-12);
    expectWithin(figures.minOverMean, 0.2 / (4 / 9), 1e-12);
    expectWithin(figures.brightestAt.x, 1 / 2, 1e-12);
    expectWithin(figures.brightestAt.y, 1 / 6, 1e-12);
    expectWithin(figures.darkestAt.x, 5 / 6, 1e-12);
    expectWithin(figures.darkestAt.y, 1 / 2, 1e-12);
  });

  test('has a map of stops below the brightest and their standard deviation', () => {
    const ev = [-1, 0, -1, Math.log2(0.625), Math.log2(0.625), -2, -1, -1, -1];
    figures.evMap.forEach((value, i) => {
      expectWithin(value!, ev[i]!, 1e-12);
    });
    const mean = ev.reduce((sum, value) => sum + value, 0) / 9;
    expectWithin(figures.stdEv, Math.sqrt(ev.reduce((sum, v) => sum + (v - mean) ** 2, 0) / 9), 1e-12);
  });

  test('is held against the centre both ways', () => {
    expectWithin(figures.fromCentreMax, 0.6, 1e-12); // 0.2 is 60 % down, 0.8 is 60 % up from 0.5
    const dim = nine.map((value, i) => (i === 4 ? 0.25 : value));
    expectWithin(falloff(inputOf(dim, 3)).fromCentreMax, 2.2, 1e-12);
    const bright = nine.map((value, i) => (i === 4 ? 0.8 : value));
    expectWithin(falloff(inputOf(bright, 3)).fromCentreMax, 0.75, 1e-12);
  });

  test('does not depend on exposure', () => {
    expect(
      falloff(
        inputOf(
          nine.map((value) => value / 8),
          3,
        ),
      ),
    ).toEqual(figures);
  });
});

test('falloff takes the nine points at the middles of nine equal zones, between cells where they lie so', () => {
  const columns = 12; // zone middles at column 1.5, 5.5 and 9.5 of 0 to 11
  const cells = Array.from({ length: columns * columns }, (_, i) => 1 + (i % columns));
  const { ninePointMinOverMax, fromCentreMax } = falloff(inputOf(cells, columns));
  expectWithin(ninePointMinOverMax, 2.5 / 10.5, 1e-12);
  expectWithin(fromCentreMax, 12 / 6.5 - 1, 1e-12);
});

test('falloff finds the steepest slope, in stops per frame width, whichever way it goes', () => {
  const columns = 20;
  const slope = (right: number, down: number) =>
    Array.from(
      { length: columns * 10 },
      (_, i) => 2 ** ((right * (i % columns) + down * Math.floor(i / columns)) / columns - 5),
    );
  expectWithin(falloff(inputOf(slope(2, 0), columns)).steepestEvPerFrameWidth, 2, 1e-9);
  expectWithin(falloff(inputOf(slope(0, -3), columns)).steepestEvPerFrameWidth, 3, 1e-9);
  expectWithin(falloff(inputOf(slope(3, 4), columns)).steepestEvPerFrameWidth, 5, 1e-9);
  expectWithin(falloff(inputOf([1], 1)).steepestEvPerFrameWidth, 0, 0);
});

test('falloff gives places across the whole frame where it read a region of it', () => {
  const region = { left: 0.2, top: 0.4, right: 0.8, bottom: 0.7 };
  const { brightestAt, darkestAt } = falloff(inputOf([2, 1, 1, 0.5], 2, { region }));
  expectWithin(brightestAt.x, 0.35, 1e-12);
  expectWithin(brightestAt.y, 0.475, 1e-12);
  expectWithin(darkestAt.x, 0.65, 1e-12);
  expectWithin(darkestAt.y, 0.625, 1e-12);
});

test('falloff leaves gaps out of every figure and says null there', () => {
  const cells = Array.from({ length: 81 }, (_, i) => (i === 7 || i === 70 ? Number.NaN : 1 + (i % 9)));
  const figures = falloff(inputOf(cells, 9));
  expect(figures.evMap.flatMap((ev, i) => (ev === null ? [i] : []))).toEqual([7, 70]);
  expect(JSON.stringify({ ...figures, evMap: [] })).not.toContain('null');
  expectWithin(figures.minOverMax, 1 / 9, 1e-12);
});

test('falloff takes the measured cell nearest to the centre where the centre itself is covered', () => {
  const cells = Array.from({ length: 81 }, (_, i) => (i % 9 >= 3 && i % 9 <= 4 ? Number.NaN : 1 + (i % 9)));
  // column 5 (light 6) lies one cell from the middle of column 4, column 2 two cells
  expectWithin(falloff(inputOf(cells, 9)).fromCentreMax, 1 - 1 / 6, 1e-12);
});

test('falloff has the whole spread for its nine points where none of them was measured', () => {
  const cells = [Number.NaN, 4, Number.NaN, 1, Number.NaN, Number.NaN];
  // 6 × 1: zone middles at columns 0.5, 2.5 and 4.5, all beside gaps
  expectWithin(falloff(inputOf(cells, 6)).ninePointMinOverMax, 0.25, 1e-12);
});

test('withNulls turns what is not finite into null', () => {
  expect(withNulls(Float64Array.of(1, Number.NaN, Number.NEGATIVE_INFINITY, -2))).toEqual([
    1,
    null,
    null,
    -2,
  ]);
});
