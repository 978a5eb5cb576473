import { expect, test } from 'vitest';
import { seededRandom } from '../../../src/engine/numeric/seeded-random.ts';
import { expectWithin } from '../../expect-within.ts';
import { aimedBy, handsFrom } from './hands.ts';

const TIMES = 2000;

/** Least, greatest and mean of many tries. */
function tries(one: () => number) {
  const all = Array.from({ length: TIMES }, one);
  return {
    least: Math.min(...all),
    most: Math.max(...all),
    mean: all.reduce((sum, each) => sum + each, 0) / TIMES,
  };
}

test('a slide of 20 cm lands within 5 % and 6 mm, on average right, and uses that room', () => {
  const hands = handsFrom(seededRandom(3));
  for (const asked of [200, -200]) {
    const { least, most, mean } = tries(() => hands.slidMm(asked));
    console.log(
      `measured: slides of ${asked} mm landed from ${least.toFixed(1)} to ${most.toFixed(1)}, mean ${mean.toFixed(1)}`,
    );
    expect(least >= asked - 16 && most <= asked + 16).toBe(true);
    expect(least < asked - 13 && most > asked + 13).toBe(true);
    expectWithin(mean, asked, 0.7);
  }
});

test('misses are drawn evenly: as many beyond half of the bound as within it', () => {
  const hands = handsFrom(seededRandom(8));
  for (const missed of [() => hands.slidMm(0) / 6, () => (hands.turnedDeg(15) - 15) / 2]) {
    const within = Array.from({ length: TIMES }, missed).filter((miss) => Math.abs(miss) < 0.5).length;
    expectWithin(within / TIMES, 0.5, 0.035); // three standard deviations of 2000 tries
  }
});

test('no slide is too short to miss by 6 mm', () => {
  const hands = handsFrom(seededRandom(4));
  const { least, most } = tries(() => hands.slidMm(0));
  expect(least >= -6 && least < -5.7 && most <= 6 && most > 5.7).toBe(true);
});

test('a turn ends within 2° of what was asked', () => {
  const hands = handsFrom(seededRandom(5));
  const { least, most, mean } = tries(() => hands.turnedDeg(15));
  expect(least >= 13 && least < 13.2 && most <= 17 && most > 16.8).toBe(true);
  expectWithin(mean, 15, 0.1);
});

test('aimedBy(hands, stand, spot) misses by 2° seen from the head, both ways', () => {
  const stand = { xMm: -300, yMm: 100, distanceMm: 1000 };
  const wanted = { xMm: 200, yMm: 0 };
  const hands = handsFrom(seededRandom(6));
  const degOff = (along: number, asked: number) =>
    ((Math.atan2(along, 1000) - Math.atan2(asked, 1000)) * 180) / Math.PI;
  const right = tries(() => degOff(aimedBy(hands, stand, wanted).xMm + 300, 500));
  const down = tries(() => degOff(aimedBy(hands, stand, wanted).yMm - 100, -100));
  for (const { least, most } of [right, down]) {
    expect(least >= -2.0001 && least < -1.8).toBe(true);
    expect(most <= 2.0001 && most > 1.8).toBe(true);
  }
  const same = (asked: number) => asked;
  const exact = { slidMm: same, turnedDeg: same, gelMired: same, leftOfSpill: () => 0 };
  expectWithin(aimedBy(exact, stand, wanted).xMm, 200, 1e-9);
  expectWithin(aimedBy(exact, stand, wanted).yMm, 0, 1e-9);
});

test('the same seed gives the same hands', () => {
  const [a, b] = [handsFrom(seededRandom(9)), handsFrom(seededRandom(9))];
  for (let i = 0; i < 20; i++) expect(a.slidMm(150)).toBe(b.slidMm(150));
});

test('gels are off by up to 12 % of their shift, and blocked spill is down to 0 to 30 %', () => {
  const hands = handsFrom(seededRandom(4));
  const gels = Array.from({ length: 500 }, () => hands.gelMired(-100));
  const left = Array.from({ length: 500 }, () => hands.leftOfSpill());
  expect(Math.min(...gels)).toBeGreaterThanOrEqual(-112);
  expect(Math.max(...gels)).toBeLessThanOrEqual(-88);
  expect(Math.max(...gels) - Math.min(...gels)).toBeGreaterThan(20);
  expect(Math.min(...left)).toBeGreaterThanOrEqual(0);
  expect(Math.max(...left)).toBeLessThanOrEqual(0.3);
  expect(Math.max(...left)).toBeGreaterThan(0.25);
});
