import { describe, expect, test } from 'vitest';
import { measureCells } from '../../../src/engine/fits/measure-cells.ts';
import type { CellGrid } from '../../../src/engine/grid/cell-grid.ts';
import type { FrameFacts } from '../../../src/engine/reading.ts';
import { expectWithin } from '../../expect-within.ts';
import { type GridOptions, gridOfLight } from './grid-of-light.ts';

const FACTS = { name: 'blank.png' } as FrameFacts; // handed through

type Light = (x: number, y: number) => [number, number, number];

const slope: Light = (x, y) => [-1 + 0.5 * x, -1 + 0.5 * x - 0.2 * y, -1.2 + 0.4 * x];

const small = { columns: 48, rows: 32 };

function measured(light: Light, options: GridOptions, change: (grid: CellGrid) => CellGrid = (grid) => grid) {
  const grid = change(gridOfLight(light, { ...small, ...options }));
  return measureCells(grid, gridOfLight(light, small).light, FACTS).measurement;
}

describe('the ± of measureCells(grid)', () => {
  test('covers the error of every figure about as often as it says, over grids of one noise', () => {
    const truth = measured(slope, {});
    let inside = 0;
    let count = 0;
    for (let seed = 1; seed <= 30; seed++) {
      const { falloff, tint, gradient, cast } = measured(slope, { noiseEv: 0.004, seed });
      const errors: [number, number][] = [
        [falloff.spreadEv - truth.falloff.spreadEv, falloff.plusMinusEv],
        [tint.spreadDeltaUv - truth.tint.spreadDeltaUv, tint.plusMinusDeltaUv],
        [gradient.ev - truth.gradient.ev, gradient.plusMinusEv],
        [gradient.angleDeg! - truth.gradient.angleDeg!, gradient.plusMinusDeg!],
        [gradient.mired! - truth.gradient.mired!, gradient.plusMinusMired!],
        [cast.deltaUv - truth.cast.deltaUv, cast.plusMinusDeltaUv],
        [cast.mired! - truth.cast.mired!, cast.plusMinusMired!],
        [cast.duv! - truth.cast.duv!, cast.plusMinusDuv!],
      ];
      for (const [error, plusMinus] of errors) {
        count++;
        if (Math.abs(error) <= plusMinus) inside++;
      }
    }
    console.log(`measured: ${((100 * inside) / count).toFixed(1)} % of ${count} errors lie inside their ±`);
    expect(inside / count).toBeGreaterThan(0.9);
    expect(inside / count).toBeLessThan(0.99);
  });

  test('grows as the noise does', () => {
    const [quiet, loud] = [measured(slope, { noiseEv: 0.002 }), measured(slope, { noiseEv: 0.008 })];
    for (const ratio of [
      loud.gradient.plusMinusEv / quiet.gradient.plusMinusEv,
      loud.cast.plusMinusDeltaUv / quiet.cast.plusMinusDeltaUv,
      loud.falloff.cellPlusMinusEv / quiet.falloff.cellPlusMinusEv,
      loud.noise.perCellEv / quiet.noise.perCellEv,
    ])
      expectWithin(ratio, 4, 0.8);
  });

  test('of one cell is the noise that smoothing leaves, and noise is what the cells hold', () => {
    const grey: Light = (x) => [-1 - x, -1 - x, -1 - x];
    const { falloff, noise } = measured(grey, { noiseEv: 0.004 });
    // three channels err apart from one another: luminance's noise by its weights
    const luminance = 0.004 * Math.hypot(0.2126, 0.7152, 0.0722);
    expectWithin(noise.perCellEv / luminance, 1, 0.1);
    expectWithin(noise.perPixelEv / (20 * luminance), 1, 0.1);
    const truth = measured(grey, {}).falloff.evMap;
    let squares = 0;
    let halves = 0;
    const seeds = 20;
    for (let seed = 1; seed <= seeds; seed++) {
      const { evMap, cellPlusMinusEv } = measured(grey, { noiseEv: 0.004, seed }).falloff;
      squares += evMap.reduce<number>((sum, ev, i) => sum + (ev! - truth[i]!) ** 2, 0) / evMap.length;
      halves += cellPlusMinusEv;
    }
    const ratio = halves / seeds / (1.96 * Math.sqrt(squares / seeds));
    console.log(`measured: the ± of one cell is ${ratio.toFixed(3)} of 1.96 × its root mean square error`);
    expectWithin(ratio, 1, 0.2);
    expect(falloff.cellPlusMinusEv).toBeGreaterThan((1.96 * luminance) / 5); // no finer than a mean of 25 cells
  });
});

describe('measureCells(grid)', () => {
  test('gives a gradient without an angle where its rise drowns in its ±', () => {
    const steep = measured(slope, { noiseEv: 0.01 });
    expect(steep.gradient.angleDeg).not.toBeNull();
    // six seeds of no slope at all: most have no angle
    const angles = [1, 2, 3, 4, 5, 6].map((seed) => measured(() => [-1, -1, -1], { noiseEv: 0.01, seed }));
    const without = angles.filter(
      ({ gradient }) => gradient.angleDeg === null && gradient.plusMinusDeg === null,
    );
    expect(without.length).toBeGreaterThanOrEqual(3);
  });

  test('says what share of the falloff its gradient explains', () => {
    expectWithin(measured(slope, {}).gradient.explains, 1, 0.002);
    const across: Light = (x) => [-1 - 4 * (x - 0.5) ** 2, -1 - 4 * (x - 0.5) ** 2, -1 - 4 * (x - 0.5) ** 2];
    expectWithin(measured(across, {}).gradient.explains, 0, 1e-9);
    // x² and x on −½ to ½ have variances of 1/180 and 1/12: a slope of s beside a bend of b explains its part
    const both: Light = (x) => {
      const level = -1 + 0.5 * (x - 0.5) - 2 * (x - 0.5) ** 2;
      return [level, level, level];
    };
    const [ofSlope, ofBend] = [0.5 ** 2 / 12, 2 ** 2 / 180];
    expectWithin(measured(both, {}).gradient.explains, ofSlope / (ofSlope + ofBend), 0.005);
  });

  test('calls the spread a lower bound only where more than glints are clipped', () => {
    const clipping = (share: number) =>
      measured(slope, { noiseEv: 0.002 }, (grid) => ({
        ...grid,
        highlightShare: grid.highlightShare.map((value, i) => (i === 700 ? share : value)),
      }));
    expect(clipping(0.01).falloff.isLowerBound).toBe(false);
    expect(clipping(0.3).falloff.isLowerBound).toBe(true);
    expectWithin(clipping(0.3).clipping.highlightShare, 0.3 / (48 * 32), 1e-12);
  });

  test('leaves cells without measurement out of every figure, and null on the maps', () => {
    const gappy = measured(slope, {}, (grid) => {
      for (const channel of Object.values(grid.light))
        for (let row = 5; row < 15; row++) channel.fill(Number.NaN, row * 48 + 20, row * 48 + 30);
      return grid;
    });
    const whole = measured(slope, {});
    expect(gappy.falloff.evMap.some((ev) => ev === null)).toBe(true);
    expectWithin(gappy.falloff.spreadEv, whole.falloff.spreadEv, 1e-9);
    expectWithin(gappy.gradient.angleDeg!, whole.gradient.angleDeg!, 0.01);
    expectWithin(gappy.gradient.ev, whole.gradient.ev, 0.001);
    expect(JSON.stringify(gappy, (key, value) => (key.endsWith('Map') ? [] : value))).not.toContain('null');
  });

  test('measures the same grid alike every time', () => {
    expect(measured(slope, { noiseEv: 0.004 })).toEqual(measured(slope, { noiseEv: 0.004 }));
  });
});
