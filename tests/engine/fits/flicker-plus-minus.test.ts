import { expect, test } from 'vitest';
import { measureCells } from '../../../src/engine/fits/measure-cells.ts';
import { averageGrids } from '../../../src/engine/grid/average-grids.ts';
import type { CellGrid } from '../../../src/engine/grid/cell-grid.ts';
import { seededRandom } from '../../../src/engine/numeric/seeded-random.ts';
import type { FrameFacts } from '../../../src/engine/reading.ts';
import { gridOfLight } from './grid-of-light.ts';

const small = { columns: 18, rows: 12 };

/** Two lights from either side, each as strong as it happens to be while the shutter is open. */
function frame(left: number, right: number, noise: { noiseEv: number; seed: number }): CellGrid {
  return gridOfLight(
    (x) => {
      const stops = Math.log2(0.4 * left * 2 ** (-2 * x) + 0.3 * right * 2 ** (-2 * (1 - x)));
      return [stops, stops, stops];
    },
    { ...small, ...noise },
  );
}

const still = frame(1, 1, { noiseEv: 0, seed: 1 });
const truth = measureCells(still, still.light, {} as FrameFacts).measurement;

/** Reads averages of several frames, flickering by so much, and tells how often the ± holds the truth. */
function coverage(frames: number, flicker: number, rounds = 120) {
  const random = seededRandom(frames);
  let [spread, byNoise, gradient, told] = [0, 0, 0, 0];
  for (let round = 0; round < rounds; round++) {
    const taken = Array.from({ length: frames }, (_, i) =>
      frame(1 + flicker * random.normal(), 1 + flicker * random.normal(), {
        noiseEv: 0.004,
        seed: 1000 * round + i,
      }),
    );
    const { measurement, flickerEv } = measureCells(averageGrids(taken), still.light, {} as FrameFacts, {
      averagedFrom: taken,
    });
    const off = Math.abs(measurement.falloff.spreadEv - truth.falloff.spreadEv);
    const noiseEv = Math.sqrt(measurement.falloff.plusMinusEv ** 2 - flickerEv ** 2);
    if (off <= measurement.falloff.plusMinusEv) spread++;
    if (off <= noiseEv) byNoise++;
    if (Math.abs(measurement.gradient.ev - truth.gradient.ev) <= measurement.gradient.plusMinusEv) gradient++;
    if (flickerEv > 0) told++;
  }
  console.log(
    `measured: ${frames} frames flickering by ${100 * flicker} %: the ± holds the spread in ${((100 * spread) / rounds).toFixed(0)} % ` +
      `(${((100 * byNoise) / rounds).toFixed(0)} % by noise alone), the gradient in ${((100 * gradient) / rounds).toFixed(0)} %; flicker told in ${((100 * told) / rounds).toFixed(0)} %`,
  );
  return {
    spread: spread / rounds,
    byNoise: byNoise / rounds,
    gradient: gradient / rounds,
    told: told / rounds,
  };
}

test.each([3, 5])('flicker between %i frames goes into the ±, which then holds the truth', (frames) => {
  const held = coverage(frames, 0.03);
  expect(held.byNoise).toBeLessThan(0.7);
  expect(held.spread).toBeGreaterThanOrEqual(0.9);
  expect(held.gradient).toBeGreaterThanOrEqual(0.9);
});

test('frames that only noise tells apart are as sure as noise makes them', () => {
  const held = coverage(4, 0);
  expect(held.told).toBeLessThan(0.1);
  expect(held.spread).toBeGreaterThanOrEqual(0.9);
});

test('one frame knows nothing of flicker', () => {
  const one = frame(1.05, 1, { noiseEv: 0.004, seed: 3 });
  expect(measureCells(one, still.light, {} as FrameFacts, { averagedFrom: [one] }).flickerEv).toBe(0);
});
