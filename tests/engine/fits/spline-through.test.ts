import { expect, test } from 'vitest';
import { surfaceAtCells } from '../../../src/engine/fits/evaluate-surface.ts';
import { splineThrough } from '../../../src/engine/fits/spline-through.ts';
import { cellCentre } from '../../../src/engine/numeric/cell-centre.ts';
import { expectWithin } from '../../expect-within.ts';
import { gridOfLight } from './grid-of-light.ts';

test('splineThrough(grid, light) follows smooth light to 0.0005 EV, also where nothing was measured', () => {
  const grid = gridOfLight(() => [Number.NaN, Number.NaN, Number.NaN]);
  const known = (tint: number) =>
    Float64Array.from({ length: grid.columns * grid.rows }, (_, at) => {
      const { x, y } = cellCentre(grid, at);
      return Math.log2(0.15 + Math.exp(-((x - 0.35) ** 2 + (y - 0.6) ** 2) / 0.18)) + tint * x;
    });
  const light = { red: known(0), green: known(0.1), blue: known(-0.2) };
  const spline = splineThrough(grid, light)!;
  const told = surfaceAtCells(
    {
      ...{
        name: 'set',
        terms: 1,
        region: grid.region,
        heldOutEv: 0,
        heldOutStandardErrorEv: 0,
        stiffness: 0,
      },
      ...spline,
    },
    grid,
  );
  let worst = 0;
  for (const channel of ['red', 'green', 'blue'] as const)
    light[channel].forEach((value, at) => {
      worst = Math.max(worst, Math.abs(told[channel][at]! - value));
    });
  console.log(`measured: spline through known light: ${worst.toExponential(1)} EV at most`);
  expectWithin(worst, 0, 5e-4);
});

test('splineThrough(grid, light) needs four cells either way', () => {
  const grid = gridOfLight(() => [-1, -1, -1], { columns: 12, rows: 3 });
  const flat = new Float64Array(36);
  expect(splineThrough(grid, { red: flat, green: flat, blue: flat })).toBeNull();
});
