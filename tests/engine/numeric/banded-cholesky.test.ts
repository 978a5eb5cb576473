import { test } from 'vitest';
import {
  bandLength,
  factorBandedCholesky,
  solveBandedCholesky,
} from '../../../src/engine/numeric/banded-cholesky.ts';
import { bandedInverse, bandedProductTrace } from '../../../src/engine/numeric/banded-inverse.ts';
import { choleskySolve } from '../../../src/engine/numeric/cholesky-solve.ts';
import { seededRandom } from '../../../src/engine/numeric/seeded-random.ts';
import { expectWithin } from '../../expect-within.ts';

const SIZE = 30;

/** A random positive definite band, as a band and as a full matrix. */
function bandAndFull(halfBandwidth: number, seed: number): { band: Float64Array; full: Float64Array } {
  const random = seededRandom(seed);
  const band = new Float64Array(bandLength({ size: SIZE, halfBandwidth }));
  const full = new Float64Array(SIZE * SIZE);
  for (let i = 0; i < SIZE; i++) {
    for (let j = Math.max(0, i - halfBandwidth); j <= i; j++) {
      const value = i === j ? 2 * halfBandwidth + 2 : random.uniform() * 2 - 1; // the diagonal outweighs its row
      band[(i + 1) * halfBandwidth + j] = value;
      full[i * SIZE + j] = value;
      full[j * SIZE + i] = value;
    }
  }
  return { band, full };
}

function columnOfInverse(full: Float64Array, column: number): Float64Array {
  const unit = new Float64Array(SIZE);
  unit[column] = 1;
  return choleskySolve(full, unit);
}

for (const halfBandwidth of [0, 1, 4, 13, SIZE - 1]) {
  const shape = { size: SIZE, halfBandwidth };

  test(`factorBandedCholesky gives L with L·L′ = A at half bandwidth ${halfBandwidth}`, () => {
    const { band, full } = bandAndFull(halfBandwidth, 3);
    factorBandedCholesky(band, shape);
    for (let i = 0; i < SIZE; i++) {
      for (let j = 0; j <= i; j++) {
        let sum = 0;
        for (let k = Math.max(0, i - halfBandwidth); k <= j; k++) {
          sum += band[(i + 1) * halfBandwidth + k]! * band[(j + 1) * halfBandwidth + k]!;
        }
        expectWithin(sum, full[i * SIZE + j]!, 1e-12);
      }
    }
  });

  test(`solveBandedCholesky agrees with the full solver at half bandwidth ${halfBandwidth}`, () => {
    const { band, full } = bandAndFull(halfBandwidth, 4);
    factorBandedCholesky(band, shape);
    const solution = new Float64Array(SIZE);
    solution[7] = 1;
    solveBandedCholesky(band, shape, solution);
    columnOfInverse(full, 7).forEach((value, at) => {
      expectWithin(solution[at]!, value, 1e-13);
    });
  });

  test(`bandedInverse agrees with the full inverse within the band at half bandwidth ${halfBandwidth}`, () => {
    const { band, full } = bandAndFull(halfBandwidth, 5);
    factorBandedCholesky(band, shape);
    const inverse = bandedInverse(band, shape);
    for (let j = 0; j < SIZE; j++) {
      const column = columnOfInverse(full, j);
      for (let i = j; i <= Math.min(SIZE - 1, j + halfBandwidth); i++) {
        expectWithin(inverse[(i + 1) * halfBandwidth + j]!, column[i]!, 1e-13);
      }
    }
  });

  test(`bandedProductTrace of a matrix and its inverse is its size at half bandwidth ${halfBandwidth}`, () => {
    const { band } = bandAndFull(halfBandwidth, 6);
    const factor = band.slice();
    factorBandedCholesky(factor, shape);
    expectWithin(bandedProductTrace(bandedInverse(factor, shape), band, shape), SIZE, 1e-11);
  });
}
