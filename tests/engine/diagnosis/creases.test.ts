import { describe, expect, test } from 'vitest';
import { creases } from '../../../src/engine/diagnosis/creases.ts';
import { seededRandom } from '../../../src/engine/numeric/seeded-random.ts';
import { SHEET_SET } from '../../synthetic/studio/even-set.ts';
import { studioField } from '../../synthetic/studio/studio-field.ts';
import { type Coding, fileOf } from '../known-frames.ts';
import { fineGridOf } from './fine-grid.ts';
import { gridOf } from './measurement-of.ts';

const [WIDTH_PX, HEIGHT_PX] = [768, 512];

/** A crease near the middle, a sixth of a cell to one and a half wide, at any angle. */
function creased(seed: number, depthEv: number) {
  const random = seededRandom(seed);
  const crease = {
    xMm: -120 + 240 * random.uniform(),
    yMm: -80 + 160 * random.uniform(),
    angleDeg: 180 * random.uniform(),
    widthMm: 2 + 8 * random.uniform(),
    depthEv,
  };
  return { crease, field: studioField({ ...SHEET_SET, texture: { creases: [crease] } }).field };
}

describe('creases(input)', () => {
  test.each<[Coding, number, number]>([
    ['16 bit', -0.06, 0.9],
    ['8 bit', 0.06, 0.9],
    ['JPEG 4:2:0', -0.15, 0.9],
  ])(
    'finds a crease in %s, %f EV deep, on its line',
    async (coding, depthEv, least) => {
      let hits = 0;
      const missed: string[] = [];
      const frames = 20;
      for (let seed = 1; seed <= frames; seed++) {
        const { crease, field } = creased(seed, depthEv);
        const finding = creases({
          grid: await fineGridOf(await fileOf(field, coding, WIDTH_PX, HEIGHT_PX, seed)),
        });
        const angle = (crease.angleDeg * Math.PI) / 180;
        const [x, y] = finding?.at
          ? [(finding.at.x - 0.5) * 600, (finding.at.y - 0.5) * 400]
          : [Number.NaN, Number.NaN];
        const offMm = Math.abs(Math.cos(angle) * (y - crease.yMm) - Math.sin(angle) * (x - crease.xMm));
        const sign = depthEv < 0 ? 'darker' : 'brighter';
        if (offMm < 15 && new RegExp(`${sign}|narrow`).test(finding!.says)) hits++;
        else missed.push(`${crease.widthMm.toFixed(1)} mm at ${crease.angleDeg.toFixed(0)}°`);
      }
      console.log(
        `measured: creases ${depthEv} EV deep, ${coding}: ${hits} of ${frames} found; missed ${missed.join('; ') || 'none'}`,
      );
      expect(hits / frames).toBeGreaterThanOrEqual(least);
    },
    120_000,
  );

  test('takes a bend, a kink, a step and a spot for no crease', () => {
    const [columns, rows] = [96, 64];
    for (const ev of [
      (x: number) => -0.8 * Math.abs(x - 0.5),
      (x: number, y: number) => -3 * ((x - 0.4) ** 2 + (y - 0.5) ** 2),
      (x: number, y: number) => Math.min(0.7 * x + 0.4 * y, 0.5),
      (x: number) => (x < 0.43 ? 0 : -0.3),
      (x: number, y: number) => (Math.hypot(x - 0.5, (y - 0.5) / 1.5) < 0.015 ? -0.2 : 0),
    ])
      expect(creases({ grid: gridOf({ ev, columns, rows }) })).toBeNull();
  });

  test('says how deep a crease is that covers whole cells, and what it takes of the spread', () => {
    const ev = (x: number, y: number) => (Math.abs(y - 0.7) < 0.008 && x > 0.2 && x < 0.8 ? -0.1 : 0);
    const finding = creases({ grid: gridOf({ ev, columns: 96, rows: 64 }) })!;
    expect(finding.says).toContain(
      'A crease shows in the background, about 0.10 stop darker than the background beside it',
    );
    // one row of five
    expect(finding.ev).toBeGreaterThan(0.015);
    expect(finding.ev).toBeLessThan(0.025);
    expect(finding.at!.y).toBeCloseTo(0.7, 2);
  });

  test('finds nothing in few cells, or in none that were measured', () => {
    expect(creases({ grid: gridOf({ ev: (x) => x, columns: 3, rows: 2 }) })).toBeNull();
    expect(creases({ grid: gridOf({ ev: () => Number.NaN, columns: 48, rows: 32 }) })).toBeNull();
  });
});
