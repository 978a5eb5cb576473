import { test } from 'vitest';
import { expectWithin } from '../../expect-within.ts';
import type { Crease } from './creases.ts';
import { EVEN_SET } from './even-set.ts';
import { photographSet } from './photograph-set.ts';

const crease: Crease = { xMm: 60, yMm: -40, angleDeg: 30, widthMm: 4, depthEv: -0.12 };
const evAt = (creases: readonly Crease[]) => {
  const { field } = photographSet({ ...EVEN_SET, texture: { creases } });
  const plain = photographSet(EVEN_SET).field(0.5, 0.5)[1];
  return (xMm: number, yMm: number) => Math.log2(field(xMm / 600 + 0.5, yMm / 400 + 0.5)[1] / plain);
};

test('a crease is as deep as asked all along its line, half as deep at half its width, nothing far off', () => {
  const ev = evAt([crease]);
  const [right, down] = [Math.cos(Math.PI / 6), Math.sin(Math.PI / 6)];
  for (const along of [-150, 0, 170]) {
    const [x, y] = [60 + along * right, -40 + along * down];
    expectWithin(ev(x, y), -0.12, 1e-9);
    for (const side of [-1, 1]) {
      expectWithin(ev(x - side * 2 * down, y + side * 2 * right), -0.06, 1e-9);
      expectWithin(ev(x - side * 15 * down, y + side * 15 * right), 0, 1e-9);
    }
  }
});

test('creases that cross add up, bright ones over dark ones', () => {
  const bright: Crease = { ...crease, angleDeg: 120, depthEv: 0.05 };
  expectWithin(evAt([crease, bright])(60, -40), -0.07, 1e-9);
});
