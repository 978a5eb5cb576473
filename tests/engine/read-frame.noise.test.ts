import { expect, test } from 'vitest';
import type { Reading } from '../../src/engine/reading.ts';
import { expectWithin } from '../expect-within.ts';
import { toPng } from '../synthetic/encode.ts';
import { fieldTruth } from '../synthetic/field-truth.ts';
import { randomField } from '../synthetic/known-field.ts';
import { HEIGHT, read, readingOf, render, WIDTH } from './blank-render.ts';
import { WELL_ELECTRONS } from './known-frames.ts';
import { furthest } from './reading-distances.ts';

test('four averaged frames have half the noise of one, and say how many they are', async () => {
  const { field } = randomField(14, { family: 'quadratic', spreadEv: 0.8 });
  const frames = [1, 2, 3, 4].map((seed) => toPng(render(field, { electronsAtFull: 3000, seed })));
  const [one, four] = [(await read(frames.slice(0, 1))).reading, (await read(frames)).reading];
  const truth = fieldTruth(field, { ...one.grid, widthPx: WIDTH, heightPx: HEIGHT });
  const rmsUv = ({ tint }: Reading) =>
    Math.sqrt(
      tint.uPrimeMap.reduce<number>((sum, u, i) => sum + (u! - truth.uPrimeMap[i]!) ** 2, 0) /
        tint.uPrimeMap.length,
    );
  const ratio = rmsUv(four) / rmsUv(one);
  console.log(
    `measured: four frames leave ${ratio.toFixed(3)} of one's error in u′; ± of the spread ${(four.falloff.plusMinusEv / one.falloff.plusMinusEv).toFixed(2)}, noise per cell ${(four.noise.perCellEv / one.noise.perCellEv).toFixed(2)}`,
  );
  expectWithin(ratio, 0.5, 0.05);
  expectWithin(four.noise.perCellEv / one.noise.perCellEv, 0.5, 0.05);
  expectWithin(four.noise.perPixelEv / one.noise.perPixelEv, 1, 0.05);
  expectWithin(four.falloff.plusMinusEv / one.falloff.plusMinusEv, 0.5, 0.2);
  expect([one.frame.averagedFrames, four.frame.averagedFrames]).toEqual([1, 4]);
});

test('a tenth of many cells behind specks moves no value of evMap by more than 0.01 EV', async () => {
  const { field } = randomField(17, { family: 'hot-spot', spreadEv: 2 });
  const frame = { widthPx: 640, heightPx: 480, bits: 8, electronsAtFull: WELL_ELECTRONS } as const;
  const clear = await readingOf(toPng(render(field, frame)));
  let worst = 0;
  for (const transmission of [0, 0.9, 0.95, 3]) {
    // a hanger's wire from top to bottom, and dust
    const specks = [
      { shape: 'box', x: 0.25, y: 0.5, widthPx: 1, heightPx: 480, transmission } as const,
      ...[0.4, 0.5, 0.6, 0.7].map(
        (x) => ({ shape: 'disc', x, y: x, widthPx: 3, heightPx: 3, transmission }) as const,
      ),
    ];
    const covered = await readingOf(toPng(render(field, { ...frame, specks })));
    worst = Math.max(worst, furthest(covered.falloff.evMap, clear.falloff.evMap));
  }
  console.log(`measured: behind a wire and dust no value of evMap moves by more than ${worst.toFixed(4)} EV`);
  expect(worst).toBeLessThanOrEqual(0.01);
});
