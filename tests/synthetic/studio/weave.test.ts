import { expect, test } from 'vitest';
import { expectWithin } from '../../expect-within.ts';
import { EVEN_SET } from './even-set.ts';
import { photographSet } from './photograph-set.ts';

const PLAIN = photographSet(EVEN_SET).field(0.5, 0.5)[1];

const weave = { pitchRightMm: 3, pitchDownMm: 4, rangeEv: 0.1 };

test('a weave repeats at its pitch both ways, with the range asked for', () => {
  const { field } = photographSet({ ...EVEN_SET, texture: { weave } });
  const ev = (xMm: number, yMm: number) => Math.log2(field(xMm / 600 + 0.5, yMm / 400 + 0.5)[1] / PLAIN);
  for (const [x, y] of [
    [-113.5, 50.5],
    [19.6, -90.4],
  ] as const) {
    expectWithin(ev(x + 3, y), ev(x, y), 1e-9);
    expectWithin(ev(x, y + 4), ev(x, y), 1e-9);
    expect(Math.abs(ev(x + 1.5, y) - ev(x, y))).toBeGreaterThan(0.01);
    expect(Math.abs(ev(x, y + 2) - ev(x, y))).toBeGreaterThan(0.01);
  }
  expectWithin(ev(0, 0) - ev(1.5, 2), 0.1, 1e-9);
  expectWithin(ev(0, 0), 0.05, 1e-9);
});
