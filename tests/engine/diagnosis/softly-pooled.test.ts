import { expect, test } from 'vitest';
import { heightLeft, softlyPooled } from '../../../src/engine/diagnosis/softly-pooled.ts';
import { expectWithin } from '../../expect-within.ts';

const [COUNT, PLACES] = [400, 80];
const line = (value: (share: number) => number) =>
  Float64Array.from({ length: COUNT }, (_, i) => value((i + 0.5) / COUNT));
const wave = (cycles: number) => (share: number) => Math.cos(2 * Math.PI * cycles * share + 0.4);
const most = (values: Float64Array) => values.reduce((high, value) => Math.max(high, Math.abs(value)), 0);

test('a slope stays as it is, up to both ends', () => {
  softlyPooled(
    line((share) => 3 * share - 1),
    PLACES,
  ).forEach((value, place) => {
    expectWithin(value, (3 * (place + 0.5)) / PLACES - 1, 1e-12);
  });
});

test('fewer values than places are left alone', () => {
  const few = line(wave(2)).subarray(0, PLACES);
  expect(softlyPooled(few, PLACES)).toBe(few);
});

test('threads of a few values go, which boxes side by side would leave as a long wave', () => {
  const weave = line(wave(COUNT / 4.9));
  const boxes = Float64Array.from({ length: PLACES }, (_, place) =>
    weave.subarray(place * 5, place * 5 + 5).reduce((sum, value) => sum + value / 5, 0),
  );
  // clear of the ends, where a place reaches half as far
  const [soft, hard] = [softlyPooled(weave, PLACES), boxes].map((values) => most(values.subarray(1, -1)));
  console.log(
    `measured: threads of 4.9 values: ${soft!.toFixed(4)} of their height left, ${hard!.toFixed(4)} by boxes`,
  );
  expect(soft).toBeLessThan(0.01);
  expect(hard).toBeGreaterThan(0.015);
});

test.each([2.2, 5, 7.5])('a long wave of %f cycles keeps the height that is told', (cycles) => {
  const pooled = softlyPooled(line(wave(cycles)), PLACES);
  const left = heightLeft(cycles, PLACES);
  let [at, square] = [0, 0];
  pooled.subarray(1, -1).forEach((value, i) => {
    const whole = wave(cycles)((i + 1.5) / PLACES);
    at += value * whole;
    square += whole * whole;
  });
  expectWithin(at / square, left, 0.002);
  expect(left).toBeLessThan(1);
});
