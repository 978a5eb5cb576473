import { expect, test } from 'vitest';
import { textWidth } from '../../src/plots/text-width.ts';

/** Advance widths in DejaVu Sans, the widest of the usual system faces, in 1/2048 of the letters' size, from its hmtx table. */
const DEJAVU = new Map(
  Object.entries({
    ' ': 651,
    ',': 651,
    '1': 1303,
    '±': 1716,
    '+': 1716,
    A: 1401,
    H: 1540,
    O: 1612,
    '%': 1946,
    c: 1126,
    e: 1260,
    f: 721,
    h: 1298,
    i: 569,
  }),
);

test('textWidth(text, fontSize) is at least what the widest of the usual faces takes, and not half as much again', () => {
  for (const text of ['11 ± 1 ch', '1111 %', 'eee fff iii', ', ,', 'OHA + A']) {
    const measured = [...text].reduce((sum, letter) => sum + DEJAVU.get(letter)!, 0) / 2048;
    expect(textWidth(text, 14)).toBeGreaterThanOrEqual(measured * 14);
    expect(textWidth(text, 14)).toBeLessThan(measured * 14 * 1.5);
  }
});
