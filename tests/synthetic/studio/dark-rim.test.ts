import { expect, test } from 'vitest';
import { expectWithin } from '../../expect-within.ts';
import { type DarkRim, rimShare } from './dark-rim.ts';
import { EVEN_SET } from './even-set.ts';
import { photographSet } from './photograph-set.ts';

const PLAIN = photographSet(EVEN_SET).field(0.5, 0.5)[1];

const rim: DarkRim = { side: 'left', reach: 0.05, level: 0.1, soft: 0.004 };

test('a rim reaches as far in as asked, dark to its edge, and leaves the rest alone', () => {
  const { field } = photographSet({ ...EVEN_SET, rim });
  const share = (x: number) => field(x, 0.4)[1] / PLAIN;
  expectWithin(share(0.01), 0.1, 1e-9);
  expectWithin(share(0.047), 0.1, 1e-9);
  expectWithin(share(0.05), 0.55, 1e-9);
  expectWithin(share(0.053), 1, 1e-9);
  expectWithin(share(0.99), 1, 1e-9);
});

test('a rim stands at the side asked for', () => {
  for (const [side, x, y] of [
    ['left', 0.02, 0.5],
    ['right', 0.98, 0.5],
    ['top', 0.5, 0.02],
    ['bottom', 0.5, 0.98],
  ] as const) {
    const share = rimShare({ ...rim, side });
    expectWithin(share(x, y), 0.1, 1e-12);
    expect(share(1 - x, 1 - y)).toBe(1);
  }
});
