import { describe, expect, test } from 'vitest';
import { cellSmoother } from '../../../src/engine/maps/smooth-cells.ts';
import { seededRandom } from '../../../src/engine/numeric/seeded-random.ts';
import { expectWithin } from '../../expect-within.ts';
import { planeThrough, smoothedByPlanes } from '../../synthetic/plane-through-cells.ts';

const noise = (count: number, seed: number) => {
  const random = seededRandom(seed);
  return Float64Array.from({ length: count }, () => random.normal());
};

function smoothed(columns: number, rows: number, values: Float64Array, measured = values): Float64Array {
  const result = new Float64Array(columns * rows);
  cellSmoother(columns, rows, measured).smooth(values, result);
  return result;
}

describe('cellSmoother(columns, rows)', () => {
  test.each([
    [12, 9],
    [5, 5],
    [4, 7],
    [3, 3],
    [2, 6],
    [2, 2],
  ])(
    'gives the plane through 5 × 5 cells on a grid of %i × %i, edges and corners included',
    (columns, rows) => {
      const values = noise(columns * rows, columns);
      const truth = smoothedByPlanes([...values], columns, rows);
      smoothed(columns, rows, values).forEach((value, i) => {
        expectWithin(value, truth[i]!, 1e-12);
      });
    },
  );

  test('takes the mean along a single row or column, where a plane has no slope across', () => {
    const values = Float64Array.of(1, 2, 4, 8, 16);
    for (const result of [smoothed(5, 1, values), smoothed(1, 5, values)])
      expectWithin(result[2]!, 31 / 5, 1e-12);
    expect([...smoothed(1, 1, Float64Array.of(7))]).toEqual([7]);
  });

  test('leaves a plane as it is, through gaps too', () => {
    const [columns, rows] = [14, 11];
    const plane = Float64Array.from(
      { length: columns * rows },
      (_, i) => 3 + 0.5 * (i % columns) - 0.2 * Math.floor(i / columns),
    );
    const measured = plane.map((value, i) => (i % 7 === 3 ? Number.NaN : value));
    const spoilt = plane.map((value, i) => (i % 7 === 3 ? 1e9 : value)); // must not be looked at
    smoothed(columns, rows, spoilt, measured).forEach((value, i) => {
      expectWithin(value, plane[i]!, 1e-11);
    });
  });

  test('gives the plane through those cells of a window that were measured, and NaN where under half were', () => {
    const [columns, rows] = [10, 10];
    const random = seededRandom(3);
    const values = noise(columns * rows, 4).map((value) => (random.uniform() < 0.45 ? Number.NaN : value));
    let gaps = 0;
    smoothed(columns, rows, values).forEach((value, i) => {
      const [column, row] = [i % columns, Math.floor(i / columns)];
      const [xs, ys, around]: [number[], number[], number[]] = [[], [], []];
      let possible = 0;
      for (let y = Math.max(0, row - 2); y <= Math.min(rows - 1, row + 2); y++) {
        for (let x = Math.max(0, column - 2); x <= Math.min(columns - 1, column + 2); x++) {
          possible++;
          if (Number.isNaN(values[y * columns + x]!)) continue;
          xs.push(x);
          ys.push(y);
          around.push(values[y * columns + x]!);
        }
      }
      if (around.length < possible / 2) {
        gaps++;
        expect(value).toBeNaN();
      } else expectWithin(value, planeThrough(xs, ys, around, column, row).centre, 1e-10);
    });
    console.log(`measured: ${gaps} of ${columns * rows} cells have no figure where 45 % are gaps`);
    expect(gaps).toBeGreaterThan(5);
  });

  test('says by how much it lowers the variance of independent noise', () => {
    const [columns, rows] = [9, 7];
    const measured = noise(columns * rows, 5).map((value, i) => (i === 20 || i === 40 ? Number.NaN : value));
    const smoother = cellSmoother(columns, rows, measured);
    const gain = new Float64Array(columns * rows);
    const response = new Float64Array(columns * rows);
    for (let i = 0; i < columns * rows; i++) {
      if (Number.isNaN(measured[i]!)) continue;
      const impulse = new Float64Array(columns * rows);
      impulse[i] = 1;
      smoother.smooth(impulse, response);
      response.forEach((value, k) => {
        gain[k]! += value * value;
      });
    }
    gain.forEach((value, i) => {
      expectWithin(smoother.noiseGain[i]!, value, 1e-12);
    });
    expectWithin(cellSmoother(9, 7, new Float64Array(63)).noiseGain[3 * 9 + 4]!, 1 / 25, 1e-12);
  });
});
