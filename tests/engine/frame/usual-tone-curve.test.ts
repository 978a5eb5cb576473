import { expect, test } from 'vitest';
import { usualToneCurve } from '../../../src/engine/frame/usual-tone-curve.ts';
import { expectWithin } from '../../expect-within.ts';

const SHAPES = [10 / 78, 0.18].flatMap((midGreyScene) =>
  [1.2, 1.35, 1.5].map((contrast) => ({ midGreyScene, contrast })),
);

test.each(SHAPES)('usualToneCurve(%o) meets all that is asked of it', (shape) => {
  const scene = usualToneCurve(shape);
  expectWithin(scene(1), 0, 1e-9);
  expectWithin(scene(0.18), Math.log2(shape.midGreyScene), 1e-9);
  // a small decoded step at mid grey is the contrast times the scene's
  const decoded = Math.log2(0.1801 / 0.1799);
  expectWithin(decoded / (scene(0.1801) - scene(0.1799)), shape.contrast, 1e-4);
});

test('usualToneCurve(shape) rises all the way', () => {
  for (const shape of SHAPES) {
    const scene = usualToneCurve(shape);
    const stops = Array.from({ length: 1000 }, (_, i) => scene((i + 1) / 1000));
    expect(stops).toEqual(stops.toSorted((a, b) => a - b));
    expect(stops.every(Number.isFinite)).toBe(true);
  }
});
