import { describe, expect, test } from 'vitest';
import { creases } from '../../../src/engine/diagnosis/creases.ts';
import { notBlank } from '../../../src/engine/diagnosis/not-blank.ts';
import { specks } from '../../../src/engine/diagnosis/specks.ts';
import { randomStudio } from '../../synthetic/random/random-studio.ts';
import { studioField } from '../../synthetic/studio/studio-field.ts';
import { fileOf } from '../known-frames.ts';
import { fineGridOf } from './fine-grid.ts';
import { diagnosisOf } from './measurement-of.ts';

/** What is found in the frame of a drawn studio, 600 pixels wide, and what was planted there. */
async function inStudio(seed: number) {
  const studio = randomStudio(seed);
  const { field } = studioField(studio.set);
  const bytes = await fileOf(field, '16 bit', 600, Math.round(600 * studio.aspect), seed);
  const input = { ...diagnosisOf({ ev: () => 0 }), grid: await fineGridOf(bytes) };
  const found = [creases(input), specks(input), notBlank(input)].map((finding) => finding?.kind);
  const planted = studio.planted.map(({ kind }) => kind);
  return { found: found.filter((kind) => kind !== undefined), planted };
}

describe('creases and specks of drawn studios', () => {
  // creases that cross, or lie under bands, left spots; many wide ones were taken for a subject
  test.each([33, 105, 143])('creases are found in seed %i, and nothing else', async (seed) => {
    const { found, planted } = await inStudio(seed);
    expect(planted).toContain('creases');
    expect(planted).not.toContain('specks');
    expect(found).toEqual(['creases']);
  });

  test.each([34, 118])('specks a few pixels wide are found in seed %i, and nothing else', async (seed) => {
    const { found, planted } = await inStudio(seed);
    expect(planted).toContain('specks');
    expect(planted).not.toContain('creases');
    expect(found).toEqual(['specks']);
  });

  test('neither is found where none was planted', async () => {
    for (const seed of [2, 6]) {
      const { found, planted } = await inStudio(seed);
      expect(planted).not.toContain('specks');
      expect(planted).not.toContain('creases');
      expect(found, `seed ${seed}`).toEqual([]);
    }
  }, 60_000);
});
