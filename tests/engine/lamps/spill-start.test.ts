import { expect, test } from 'vitest';
import { xyzToUvPrime } from '../../../src/engine/colour/chromaticity.ts';
import { setLight } from '../../../src/engine/lamps/set-light.ts';
import { spillStart } from '../../../src/engine/lamps/spill-start.ts';
import { lightOf, setOf, WHITE } from './set-of.ts';

const ACROSS = 15;
const DOWN = 10;

function samplesOf(set: Parameters<typeof setLight>[0]) {
  const light = setLight(set);
  const cells = Array.from({ length: ACROSS * DOWN }, (_, i) => {
    const [x, y] = [
      ((i % ACROSS) + 0.5) / ACROSS - 0.5,
      ((Math.floor(i / ACROSS) + 0.5) / DOWN - 0.5) * set.aspect,
    ];
    const [X, Y, Z] = light(x, y);
    return { x, y, ev: Math.log2(Y), ...xyzToUvPrime(X, Y, Z) };
  });
  const all = (of: (cell: (typeof cells)[number]) => number) => Float64Array.from(cells, of);
  return {
    x: all(({ x }) => x),
    y: all(({ y }) => y),
    ev: all(({ ev }) => ev),
    uPrime: all(({ uPrime }) => uPrime),
    vPrime: all(({ vPrime }) => vPrime),
    aspect: set.aspect,
    levelEv: 0,
    exposureEv: null,
  };
}

test('guesses from the colours that there is spill, and which way it rises', () => {
  const spill = { levelEv: -3, rightEv: 1.4, downEv: -0.6, colour: { mired: 120, duv: 0 } };
  const set = setOf([lightOf({ distance: 2, strengthEv: 2 })], { spill });
  const guess = spillStart(samplesOf(set), WHITE, 120)!;
  console.log(
    `measured: level ${guess.levelEv.toFixed(2)} (−3), slopes ${guess.rightEv.toFixed(2)} (1.4), ${guess.downEv.toFixed(2)} (−0.6)`,
  );
  // a guess to begin with: there, and rising the way it does
  expect(guess.levelEv).toBeGreaterThan(-6);
  expect(guess.rightEv).toBeGreaterThan(0.7);
  expect(guess.downEv).toBeLessThan(-0.3);
  expect(guess.rightEv / -guess.downEv).toBeGreaterThan(1);
});

test('finds nearly none where all is of one colour', () => {
  const guess = spillStart(samplesOf(setOf([lightOf({ distance: 2, strengthEv: 2 })])), WHITE, 120);
  expect(guess!.levelEv).toBeLessThan(-8);
});
