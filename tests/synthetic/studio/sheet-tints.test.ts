import { expect, test } from 'vitest';
import { expectWithin } from '../../expect-within.ts';
import { xyzOfSrgbLight } from '../colour-truth.ts';
import { castOf } from '../field-truth.ts';
import { EVEN_SET } from './even-set.ts';
import { photographSet } from './photograph-set.ts';
import { tintedAllOver, tintedOnOneSide } from './sheet-tints.ts';
import type { SurfaceTint } from './studio-set.ts';

const castThrough = (tint: SurfaceTint) => {
  const { field } = photographSet({ ...EVEN_SET, background: { ...EVEN_SET.background, tint } });
  return (x: number, y: number) => castOf(xyzOfSrgbLight(field(x, y)));
};

test('a sheet tinted all over reads as asked everywhere and brightens no channel', () => {
  for (const [mired, duv] of [
    [35, 0.003],
    [-20, -0.002],
  ] as const) {
    const tint = tintedAllOver(mired, duv);
    expectWithin(Math.max(...tint(0, 0)), 1, 1e-12);
    for (const x of [0, 0.5, 1]) {
      expectWithin(castThrough(tint)(x, 0.3).mired, mired, 0.1);
      expectWithin(castThrough(tint)(x, 0.3).duv, duv, 2e-5);
    }
  }
});

test('a sheet tinted on one side is clear on the other and half as tinted in the middle', () => {
  const tint = tintedOnOneSide({ mired: 30, duv: 0.002, towardDeg: 180, softMm: 150 });
  const cast = castThrough(tint);
  expectWithin(cast(0, 0.5).mired, 30, 0.4);
  expectWithin(cast(1, 0.5).mired, 0, 0.4);
  expectWithin(cast(0.5, 0.5).mired, 15, 0.7);
  expectWithin(cast(0.3, 0.1).mired, cast(0.3, 0.9).mired, 1e-6);
  const upwards = castThrough(tintedOnOneSide({ mired: 30, duv: 0, towardDeg: 270, softMm: 60 }));
  expect(upwards(0.5, 0).mired).toBeGreaterThan(upwards(0.5, 1).mired + 29);
});
