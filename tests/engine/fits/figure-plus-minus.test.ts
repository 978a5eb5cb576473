import { expect, test } from 'vitest';
import { figurePlusMinus } from '../../../src/engine/fits/figure-plus-minus.ts';
import { type CellErrors, cellErrors } from '../../../src/engine/maps/cell-errors.ts';
import { regionGeometry } from '../../../src/engine/maps/cell-plane.ts';
import { figureTaker } from '../../../src/engine/maps/frame-figures.ts';
import { expectWithin } from '../../expect-within.ts';
import { gridOfLight, SRGB_TO_XYZ } from './grid-of-light.ts';

const options = { columns: 36, rows: 24 };
const slope = (x: number, y: number) => [-1 + 0.6 * x, -1 + 0.5 * x - 0.2 * y, -1.2 + 0.4 * x] as const;

/** The ± of a slope whose cells err by `noiseEv`, told by `change` otherwise. */
function plusMinusOf(
  noiseEv: number,
  change: (errors: CellErrors) => CellErrors = (errors) => errors,
  gap = false,
) {
  const grid = gridOfLight(slope, { ...options, noiseEv });
  const { light: truth } = gridOfLight(slope, options);
  for (const channel of gap ? [...Object.values(grid.light), ...Object.values(truth)] : [])
    (channel as Float64Array).fill(Number.NaN, 300, 330);
  const geometry = regionGeometry(grid.region, grid.columns, grid.rows, grid.cellWidthPx, grid.cellHeightPx);
  const taker = figureTaker(grid.columns, grid.rows, geometry, SRGB_TO_XYZ, grid.light.green);
  return figurePlusMinus(taker, truth, change(cellErrors(grid, truth)), geometry, grid);
}

const withoutErrors = (errors: CellErrors): CellErrors => {
  const none = new Float64Array(36 * 24);
  return {
    ...errors,
    sigma: { red: none, green: none, blue: none },
    rounding: { ...errors.rounding, planes: [] },
  };
};

test('figurePlusMinus is 0 in every figure where nothing errs', () => {
  for (const [name, value] of Object.entries(plusMinusOf(0.004, withoutErrors))) {
    // cells are compared to first order of the log, so a rounding of doubles may stay
    expect(value, name).toBeLessThan(1e-9);
  }
});

test('figurePlusMinus grows in proportion to the errors of cells', () => {
  const [once, thrice] = [plusMinusOf(0.002), plusMinusOf(0.006)];
  for (const name of [
    'castDeltaUv',
    'castMired',
    'castDuv',
    'gradientEv',
    'gradientDeg',
    'gradientMired',
  ] as const)
    expectWithin(thrice[name] / once[name], 3, 0.6);
});

test('figurePlusMinus of a gradient is what least squares say of its slope', () => {
  const { gradientEv } = plusMinusOf(0.004, (errors) => ({
    ...errors,
    mixing: [1, 0, 1, 0, 0, 1],
    rounding: { ...errors.rounding, planes: [] },
  }));
  // luminance's noise by its weights; a slope over n cells has variance σ² / Σx², and there are two of them
  const sigma = 0.004 * Math.hypot(0.2126, 0.7152, 0.0722);
  const [columns, rows] = [36, 24];
  const slopeSigma = (along: number, across: number) =>
    sigma / Math.sqrt((across * along * (along ** 2 - 1)) / 12 / columns ** 2);
  const tall = rows / columns;
  const range = Math.hypot(slopeSigma(columns, rows), tall * slopeSigma(rows, columns));
  console.log(
    `measured: ± of the gradient ${(gradientEv / (1.96 * range)).toFixed(3)} of least squares' own`,
  );
  expectWithin(gradientEv / (1.96 * range), 1, 0.25);
});

test('figurePlusMinus is finite round gaps, and the same every time', () => {
  const gappy = plusMinusOf(0.004, (errors) => errors, true);
  for (const [name, value] of Object.entries(gappy))
    expect(value > 0 && Number.isFinite(value), name).toBe(true);
  expect(plusMinusOf(0.004)).toEqual(plusMinusOf(0.004));
});

test('figurePlusMinus is finite where errors are larger than the light that they fall on', () => {
  const huge = plusMinusOf(0.004, (errors) => {
    const twice = (sigma: Float64Array) => sigma.map(() => 1);
    const { red, green, blue } = errors.sigma;
    return { ...errors, sigma: { red: twice(red), green: twice(green), blue: twice(blue) } };
  });
  for (const name of ['spreadEv', 'cellEv', 'gradientEv', 'tintDeltaUv', 'castDeltaUv'] as const)
    expect(huge[name], name).toBeGreaterThan(0);
});
