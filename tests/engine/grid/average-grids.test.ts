import { expect, test } from 'vitest';
import { averageGrids } from '../../../src/engine/grid/average-grids.ts';
import { expectWithin } from '../../expect-within.ts';
import { gridOfLight } from '../fits/grid-of-light.ts';

const noisy = (seed: number, stops = 0) =>
  gridOfLight((x) => [-1 - x + stops, -1 + stops, -1.5 + stops], { noiseEv: 0.01, seed });

test('averageGrids(grids) is the mean in linear light, with the pixels added up', () => {
  const [a, b] = [noisy(1), noisy(2, 0.4)];
  const mean = averageGrids([a, b]);
  for (const cell of [0, 777, 6143]) {
    expectWithin(mean.light.red[cell]!, (a.light.red[cell]! + b.light.red[cell]!) / 2, 1e-15);
    expectWithin(mean.light.blue[cell]!, (a.light.blue[cell]! + b.light.blue[cell]!) / 2, 1e-15);
    const scatter = Math.hypot(a.scatter.green[cell]!, b.scatter.green[cell]!) / Math.SQRT2;
    expectWithin(mean.scatter.green[cell]!, scatter, 1e-15);
    expect(mean.pixels[cell]).toBe(a.pixels[cell]! + b.pixels[cell]!);
  }
});

test('averageGrids(four grids) halves the noise of the cells', () => {
  const noiseOf = (grid: ReturnType<typeof noisy>) => {
    const off = grid.light.green.map((value) => Math.log2(value) + 1);
    return Math.sqrt(off.reduce((sum, ev) => sum + ev * ev, 0) / off.length);
  };
  const ratio = noiseOf(averageGrids([1, 2, 3, 4].map((seed) => noisy(seed)))) / noiseOf(noisy(9));
  console.log(`measured: noise of four averaged grids is ${ratio.toFixed(3)} of one's`);
  expectWithin(ratio, 0.5, 0.03);
});

test('averageGrids(grids) averages the shares, and a cell without measurement in one grid has none', () => {
  const [a, b] = [noisy(1), noisy(2)];
  a.highlightShare[5] = 0.5;
  b.shadowShare[6] = 1;
  a.speckShare[7] = 0.2;
  b.light.green[8] = Number.NaN;
  const mean = averageGrids([a, b]);
  expect([mean.highlightShare[5], mean.shadowShare[6], mean.speckShare[7]]).toEqual([0.25, 0.5, 0.1]);
  expect(mean.light.green[8]).toBeNaN();
  expect(mean.light.green.filter(Number.isNaN).length).toBe(1);
});

test('averageGrids([grid]) is that grid, and the grids given are left as they were', () => {
  const [a, b] = [noisy(1), noisy(2)];
  expect(averageGrids([a])).toBe(a);
  averageGrids([a, b]);
  expect(a).toEqual(noisy(1));
});

test('averageGrids refuses frames of another size or colour space, and says what to do', () => {
  const grid = noisy(1);
  const others = [
    gridOfLight(() => [-1, -1, -1], { columns: 95 }),
    gridOfLight(() => [-1, -1, -1], { cellPx: 21 }),
    { ...grid, toXyz: grid.toXyz.map((value) => value * 1.001) as unknown as typeof grid.toXyz },
  ];
  others.push({ ...grid, jpegDcSteps: { lumaCodes: 0.25, chromaCodes: 0.25, chromaBlockPx: 8 } });
  for (const other of others) {
    expect(() => averageGrids([grid, other])).toThrow(
      /differ in size, depth, format or colour space.*one camera.*again/,
    );
    expect(() => averageGrids([grid, other])).toThrow(expect.objectContaining({ code: 'unsupported-file' }));
  }
});

test('averageGrids refuses frames that are exposed a stop apart', () => {
  expect(() => averageGrids([noisy(1), noisy(2, 1)])).toThrow(/1\.0 stops.*exposed alike/);
});

test('averageGrids refuses frames between which the light was moved or something put in, and says by how much', () => {
  const slope = (stops: number) =>
    gridOfLight((x) => [-1 + stops * x, -1 + stops * x, -1 + stops * x], { noiseEv: 0.01, seed: 4 });
  expect(() => averageGrids([slope(0), slope(0.6)])).toThrow(/falls differently, by 0\.\d stops.*one by one/);
  expect(() => averageGrids([slope(0), slope(0.1)])).not.toThrow();
  const withTumbler = noisy(2);
  for (const channel of Object.values(withTumbler.light)) channel.fill(0.01, 2000, 2600);
  expect(() => averageGrids([noisy(1), withTumbler])).toThrow(/one unchanged set-up/);
});

test('averageGrids takes light that is black in green', () => {
  const red = (seed: number) => {
    const grid = noisy(seed);
    grid.light.green.fill(0);
    return grid;
  };
  expect(averageGrids([red(1), red(2)]).light.green.every((value) => value === 0)).toBe(true);
});
