import { expect, test } from 'vitest';
import { choleskySolve } from '../../../src/engine/numeric/cholesky-solve.ts';
import { leastSquares } from '../../../src/engine/numeric/least-squares.ts';
import { seededRandom } from '../../../src/engine/numeric/seeded-random.ts';
import { expectWithin } from '../../expect-within.ts';
import { gramMatrix, matrixTimes, randomMatrix } from './random-matrix.ts';

const ROWS = 40;
const COLUMNS = 5;

test('leastSquares(A, n, A·x) gives x back and leaves nothing over', () => {
  const design = randomMatrix(ROWS, COLUMNS, 1);
  const truth = [3, -1, 0.5, 20, -7];
  const { parameters, residualSum } = leastSquares(design, COLUMNS, matrixTimes(design, truth));
  truth.forEach((value, at) => {
    expectWithin(parameters[at]!, value, 1e-12);
  });
  expectWithin(residualSum, 0, 1e-20);
});

test('leastSquares(A, n, y, w) leaves residuals orthogonal to every column under the weights', () => {
  const design = randomMatrix(ROWS, COLUMNS, 2);
  const observed = randomMatrix(ROWS, 1, 3);
  const weights = randomMatrix(ROWS, 1, 4).map((value) => value * value);
  const { residuals, residualSum } = leastSquares(design, COLUMNS, observed, weights);
  for (let column = 0; column < COLUMNS; column++) {
    let product = 0;
    for (let row = 0; row < ROWS; row++)
      product += weights[row]! * design[row * COLUMNS + column]! * residuals[row]!;
    expectWithin(product, 0, 1e-12);
  }
  let sum = 0;
  for (let row = 0; row < ROWS; row++) sum += weights[row]! * residuals[row]! ** 2;
  expectWithin(residualSum, sum, 1e-12);
});

test('leastSquares(A, n, y) agrees with the normal equations where those are sound', () => {
  const design = randomMatrix(ROWS, COLUMNS, 5);
  const observed = randomMatrix(ROWS, 1, 6);
  const side = new Float64Array(COLUMNS);
  for (let at = 0; at < design.length; at++)
    side[at % COLUMNS]! += design[at]! * observed[Math.floor(at / COLUMNS)]!;
  const reference = choleskySolve(gramMatrix(design, COLUMNS), side);
  const { parameters } = leastSquares(design, COLUMNS, observed);
  reference.forEach((value, at) => {
    expectWithin(parameters[at]!, value, 1e-12);
  });
});

test('leastSquares(A, n, y).covariance is the inverse of A′A', () => {
  const design = randomMatrix(ROWS, COLUMNS, 7);
  const gram = gramMatrix(design, COLUMNS);
  const { covariance } = leastSquares(design, COLUMNS, randomMatrix(ROWS, 1, 8));
  for (let i = 0; i < COLUMNS; i++) {
    const column = Float64Array.from({ length: COLUMNS }, (_, k) => covariance[k * COLUMNS + i]!);
    matrixTimes(gram, column).forEach((value, j) => {
      expectWithin(value, i === j ? 1 : 0, 1e-12);
    });
  }
});

test('leastSquares(A, n, y, 1/σ²).covariance is the scatter of the parameters over many noisy draws', () => {
  const design = randomMatrix(ROWS, 2, 9);
  const sigma = Float64Array.from({ length: ROWS }, (_, row) => 0.1 + row / ROWS);
  const random = seededRandom(10);
  const draws = 4000;
  let scatter = 0;
  let stated = 0;
  for (let draw = 0; draw < draws; draw++) {
    const observed = sigma.map((value) => value * random.normal());
    const fit = leastSquares(
      design,
      2,
      observed,
      sigma.map((value) => 1 / value ** 2),
    );
    scatter += fit.parameters[0]! ** 2 / draws;
    stated = fit.covariance[0]!;
  }
  console.log(
    `measured: variance of a parameter over ${draws} draws ÷ stated ${(scatter / stated).toFixed(3)}`,
  );
  expectWithin(scatter / stated, 1, 0.09); // four standard errors of a variance over 4000 draws
});

test('leastSquares(A, n, y) holds where A′A has lost all its digits', () => {
  const tiny = 1e-9; // squared, it vanishes beside 1
  const design = Float64Array.of(1, 1, tiny, 0, 0, tiny);
  const { parameters } = leastSquares(design, 2, Float64Array.of(2, tiny, tiny));
  expectWithin(parameters[0]!, 1, 1e-6);
  expectWithin(parameters[1]!, 1, 1e-6);
  expect(() => choleskySolve(gramMatrix(design, 2), Float64Array.of(2, 2))).toThrow(RangeError);
});

test('leastSquares(A, n, y, w) does not look at rows of weight 0', () => {
  const design = Float64Array.of(1, 0, 1, 1, 1, 2, Number.NaN, 5);
  const fit = leastSquares(design, 2, Float64Array.of(1, 3, 5, Number.NaN), Float64Array.of(1, 1, 1, 0));
  expectWithin(fit.parameters[0]!, 1, 1e-12);
  expectWithin(fit.parameters[1]!, 2, 1e-12);
});

test('leastSquares refuses dependent columns, too few rows, bad shapes and negative weights', () => {
  const dependent = Float64Array.of(1, 2, 2, 4, 3, 6);
  const three = Float64Array.of(1, 2, 3);
  expect(() => leastSquares(dependent, 2, three)).toThrow(/column 1 depends/);
  expect(() => leastSquares(dependent, 2, three, Float64Array.of(1, 0, 0))).toThrow(
    /1 rows count; 2 parameters/,
  );
  expect(() => leastSquares(dependent, 3, three)).toThrow(/expected 3 × 3/);
  expect(() => leastSquares(dependent, 2, three, Float64Array.of(1, -1, 1))).toThrow(/weight 1 is -1/);
});
