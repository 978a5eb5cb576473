import { test } from 'vitest';
import { exactTimes } from '../../../src/engine/response/marked-times.ts';
import { expectWithin } from '../../expect-within.ts';

test('exactTimes(seconds) takes marks for the series that they stand for, in thirds of a stop', () => {
  const marks = [1 / 32000, 1 / 16000, 1 / 8000, 1 / 500, 1 / 125, 1 / 60, 1 / 30, 1 / 15, 0.8, 1.3, 15, 30];
  const exact = [-15, -14, -13, -9, -7, -6, -5, -4, -1 / 3, 1 / 3, 4, 5];
  exactTimes(marks).forEach((stops, i) => {
    expectWithin(stops, exact[i]!, 1e-12);
  });
  // neighbours of the whole series lie exactly a third apart
  const thirds = [1 / 160, 1 / 125, 1 / 100, 1 / 80, 1 / 60, 1 / 50, 1 / 40, 1 / 30, 1 / 25, 1 / 20, 1 / 15];
  const times = exactTimes([
    ...thirds,
    1 / 13,
    1 / 10,
    1 / 8,
    1 / 6,
    1 / 5,
    1 / 4,
    0.3,
    0.4,
    0.5,
    0.6,
    0.8,
    1,
  ]);
  for (let i = 1; i < times.length; i++) expectWithin(times[i]! - times[i - 1]!, 1 / 3, 1e-12);
});

test('exactTimes(seconds) goes by halves where a mark is one of halves alone', () => {
  exactTimes([1 / 45, 1 / 30, 1 / 20, 1 / 90, 1 / 180, 0.7]).forEach((stops, i) => {
    expectWithin(stops, [-5.5, -5, -4.5, -6.5, -7.5, -0.5][i]!, 1e-12);
  });
});

test('exactTimes(seconds) takes a time at its word that is no mark', () => {
  exactTimes([1 / 128, 1 / 734, 0.0371]).forEach((stops, i) => {
    expectWithin(stops, Math.log2([1 / 128, 1 / 734, 0.0371][i]!), 1e-12);
  });
});
