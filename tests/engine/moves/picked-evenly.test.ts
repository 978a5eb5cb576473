import { expect, test } from 'vitest';
import { pickedEvenly } from '../../../src/engine/moves/picked-evenly.ts';

test('picks from the first to the end, so that what comes kind by kind has its share', () => {
  const kinds = [...Array(24).fill('likeliest'), ...Array(12).fill('second'), ...Array(12).fill('third')];
  const picked = pickedEvenly(['best', ...kinds], 25);
  expect(picked[0]).toBe('best');
  for (const [kind, share] of [
    ['likeliest', 12],
    ['second', 6],
    ['third', 6],
  ] as const)
    expect(Math.abs(picked.filter((each) => each === kind).length - share)).toBeLessThanOrEqual(1);
  expect(new Set(pickedEvenly([...Array(7).keys()], 3))).toEqual(new Set([0, 2, 4]));
});

test('leaves a short list as it is', () => {
  expect(pickedEvenly([3, 1, 2], 3)).toEqual([3, 1, 2]);
  expect(pickedEvenly([3, 1], 24)).toEqual([3, 1]);
});
