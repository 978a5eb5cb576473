import { describe, expect, test } from 'vitest';
import { specks } from '../../../src/engine/diagnosis/specks.ts';
import { seededRandom } from '../../../src/engine/numeric/seeded-random.ts';
import { SHEET_SET } from '../../synthetic/studio/even-set.ts';
import { studioField } from '../../synthetic/studio/studio-field.ts';
import { type Coding, fileOf } from '../known-frames.ts';
import { fineGridOf } from './fine-grid.ts';
import { gridOf } from './measurement-of.ts';

const [WIDTH_PX, HEIGHT_PX] = [1200, 800];

/** One to four spots, far enough apart to be told apart, of a third of a cell and more. */
function dusty(seed: number) {
  const random = seededRandom(seed);
  const dust = Array.from({ length: 1 + (seed % 4) }, (_, i) => ({
    xMm: -240 + 120 * i + 80 * random.uniform(),
    yMm: -150 + 300 * random.uniform(),
    radiusMm: 1.5 + 3 * random.uniform(),
    depthEv: 0.1 + 0.5 * random.uniform(),
  }));
  return { dust, field: studioField({ ...SHEET_SET, texture: { dust } }).field };
}

describe('specks(input)', () => {
  test.each<[Coding, number, number]>([
    ['8 bit', 0.95, 0.9],
    ['JPEG 4:2:0', 0.8, 0.55], // its plateaux hide faint ones
  ])(
    'counts the specks of a sheet in %s, and says where the largest is',
    async (coding, leastPlaced, leastCounted) => {
      let counted = 0;
      let placed = 0;
      const off: string[] = [];
      const frames = 16;
      for (let seed = 1; seed <= frames; seed++) {
        const { dust, field } = dusty(seed);
        const finding = specks({
          grid: await fineGridOf(await fileOf(field, coding, WIDTH_PX, HEIGHT_PX, seed)),
        });
        const told =
          finding === null ? 0 : finding.says.startsWith('One') ? 1 : Number.parseInt(finding.says, 10);
        if (told === dust.length) counted++;
        else off.push(`${told} for ${dust.length}`);
        const near = dust.some(
          ({ xMm, yMm }) =>
            Math.hypot((finding?.at?.x ?? 9) * 600 - 300 - xMm, (finding?.at?.y ?? 9) * 400 - 200 - yMm) < 10,
        );
        if (near) placed++;
      }
      console.log(
        `measured: specks in ${coding}: found in ${placed} of ${frames} frames, counted in ${counted}; off ${off.join('; ') || 'never'}`,
      );
      expect(placed / frames).toBeGreaterThanOrEqual(leastPlaced);
      expect(counted / frames).toBeGreaterThanOrEqual(leastCounted);
    },
    120_000,
  );

  test('asks for a second frame rather than guess whether the background or the sensor has them', () => {
    const ev = (x: number, y: number) => (Math.hypot(x - 0.8, (y - 0.3) / 1.5) < 0.008 ? -0.2 : 0);
    const finding = specks({ grid: gridOf({ ev, columns: 96, rows: 64 }) })!;
    expect(finding.says).toBe(
      'One dark speck shows at the top right; shoot a second frame with the camera moved slightly: specks that keep their place in it are on the sensor, the others on the background.',
    );
    expect(finding.ev).toBeGreaterThan(0);
    expect(finding.confidence).toBeGreaterThan(0.95);
  });

  test('takes glints, lines, kinks and broad shades for no specks', () => {
    for (const ev of [
      (x: number, y: number) => (Math.hypot(x - 0.6, (y - 0.3) / 1.5) < 0.008 ? 0.2 : 0),
      (x: number, y: number) => -0.1 * 2 ** -(((x - 0.3 - 0.4 * y) / 0.008) ** 2),
      (x: number) => 0.8 * Math.abs(x - 0.5),
      (x: number, y: number) => 3 * ((x - 0.4) ** 2 + (y - 0.5) ** 2),
      (x: number, y: number) => -0.5 * Math.exp(-((x - 0.5) ** 2 + (y - 0.5) ** 2) / 0.01),
    ])
      expect(specks({ grid: gridOf({ ev, columns: 96, rows: 64 }) })).toBeNull();
  });

  test('finds nothing in few cells, or in none that were measured', () => {
    expect(specks({ grid: gridOf({ ev: (x) => x, columns: 3, rows: 2 }) })).toBeNull();
    expect(specks({ grid: gridOf({ ev: () => Number.NaN, columns: 48, rows: 32 }) })).toBeNull();
  });
});
