import { describe, expect, test } from 'vitest';
import { bands } from '../../../src/engine/diagnosis/bands.ts';
import { unsmoothCells } from '../../../src/engine/diagnosis/blankness.ts';
import { expectWithin } from '../../expect-within.ts';
import { randomStudio } from '../../synthetic/random/random-studio.ts';
import { studioField } from '../../synthetic/studio/studio-field.ts';
import { fileOf } from '../known-frames.ts';
import { fineGridOf } from './fine-grid.ts';
import { measurementOf } from './measurement-of.ts';

const MEASUREMENT = measurementOf({ ev: () => 0 });
const WIDTH_PX = 600;

/** A drawn studio, and the cells of its frame. */
async function studioGrid(seed: number) {
  const studio = randomStudio(seed);
  const { field } = studioField(studio.set);
  const bytes = await fileOf(field, '16 bit', WIDTH_PX, Math.round(WIDTH_PX * studio.aspect), seed);
  return { studio, grid: await fineGridOf(bytes) };
}

describe('bands of drawn studios', () => {
  // the first four are so deep that a fifth of the cells and more are off any smooth light; the last is woven, with
  // threads far deeper from line to line than its two bands
  test.each([4, 66, 120, 132, 80, 139, 99])('are found in seed %i, and are no subject', async (seed) => {
    const { studio, grid } = await studioGrid(seed);
    const planted = studio.planted.find((cause) => cause.kind === 'bands');
    if (planted?.kind !== 'bands') throw new Error(`seed ${seed} has no bands`);
    const finding = bands({ grid, measurement: MEASUREMENT })!;
    const lengthPx = planted.run === 'upright' ? WIDTH_PX : Math.round(WIDTH_PX * studio.aspect);
    const period = Number(/every ([\d.]+) lines/.exec(finding.says)?.[1]) / lengthPx;
    const truth = planted.periodLines / planted.ofLines;
    const { share } = unsmoothCells(grid);
    console.log(
      `measured: seed ${seed}: period off by ${((period / truth - 1) * 100).toFixed(1)} %, ${finding.ev!.toFixed(3)} EV of the spread, truth ${planted.shareEv!.toFixed(3)} EV; ${(share * 100).toFixed(1)} % of the cells unsmooth`,
    );
    expectWithin(period / truth, 1, 0.02);
    expectWithin(finding.ev!, planted.shareEv!, 0.05);
    expect(finding.confidence).toBeGreaterThan(0.5);
    expect(share).toBeLessThan(0.01);
  });

  test('are not found in studios without', async () => {
    for (const seed of [1, 2, 3, 6, 7, 10]) {
      const { studio, grid } = await studioGrid(seed);
      if (studio.planted.some(({ kind }) => kind === 'bands')) continue;
      expect(bands({ grid, measurement: MEASUREMENT }), `seed ${seed}`).toBeNull();
    }
  }, 60_000);
});
