import { expect, test } from 'vitest';
import { expectWithin } from '../../expect-within.ts';
import { EVEN_SET } from './even-set.ts';
import { photographSet } from './photograph-set.ts';

const PLAIN = photographSet(EVEN_SET).field(0.5, 0.5)[1];

const spot = { xMm: -80, yMm: 30, radiusMm: 2, depthEv: 0.3 };

test('a dust spot is dark in its middle, half as dark at its radius, round, and gone half a radius farther', () => {
  const { field } = photographSet({ ...EVEN_SET, texture: { dust: [spot] } });
  const ev = (xMm: number, yMm: number) => Math.log2(field(xMm / 600 + 0.5, yMm / 400 + 0.5)[1] / PLAIN);
  expectWithin(ev(-80, 30), -0.3, 1e-9);
  expectWithin(ev(-80, 30.9), -0.3, 1e-9);
  for (const [right, down] of [
    [2, 0],
    [0, -2],
    [Math.SQRT2, Math.SQRT2],
  ] as const)
    expectWithin(ev(-80 + right, 30 + down), -0.15, 1e-9);
  expectWithin(ev(-77, 30), 0, 1e-9);
});

test('spots lie on the background: a camera slid to the right sees them farther left', () => {
  const slid = photographSet({ ...EVEN_SET, texture: { dust: [spot] }, cameraRightMm: 50 });
  const at = (xMm: number) => Math.log2(slid.field(xMm / 600 + 0.5, 30 / 400 + 0.5)[1] / PLAIN);
  expectWithin(at(-130), -0.3, 1e-9);
  expect(Math.abs(at(-80))).toBeLessThan(1e-9);
});
