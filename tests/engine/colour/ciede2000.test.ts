import { expect, test } from 'vitest';
import { ciede2000 } from '../../../src/engine/colour/ciede2000.ts';
import type { Lab } from '../../../src/engine/colour/lab.ts';
import { expectWithin } from '../../expect-within.ts';
import { numberIn, readTable } from '../../published/read-table.ts';

const pairs = readTable('ciede2000-sharma').map((row) => {
  const lab = (end: '1' | '2'): Lab => ({
    lightness: numberIn(row, `L${end}`),
    a: numberIn(row, `a${end}`),
    b: numberIn(row, `b${end}`),
  });
  return {
    pair: numberIn(row, 'pair'),
    first: lab('1'),
    second: lab('2'),
    difference: numberIn(row, 'dE00'),
  };
});

test('the table of pairs is whole', () => {
  expect(pairs.map(({ pair }) => pair)).toEqual(Array.from({ length: 34 }, (_, i) => i + 1));
});

// Source: Sharma, Wu and Dalal 2005, table 1; half a unit in the last printed digit.
test.each(pairs)(
  'ciede2000 of pair $pair is $difference, both ways round',
  ({ first, second, difference }) => {
    expectWithin(ciede2000(first, second), difference, 0.5e-4);
    expectWithin(ciede2000(second, first), difference, 0.5e-4);
  },
);

test('ciede2000(lab, lab) is 0, and NaN is NaN', () => {
  for (const { first } of pairs) expect(ciede2000(first, first)).toBe(0);
  expect(ciede2000({ lightness: 50, a: Number.NaN, b: 0 }, { lightness: 50, a: 0, b: 0 })).toBeNaN();
});
