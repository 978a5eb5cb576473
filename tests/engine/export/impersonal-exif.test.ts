import exifr from 'exifr';
import { expect, test } from 'vitest';
import { type CorrectOptions, correctFrame } from '../../../src/engine/correct-frame.ts';
import { impersonalExif } from '../../../src/engine/export/impersonal-exif.ts';
import { shotFacts } from '../../../src/engine/intake/shot-facts.ts';
import { nodePlatform } from '../../node-platform.ts';
import { toPng } from '../../synthetic/encode.ts';
import { latticeOf, profileOf } from '../correct/profile-of.ts';
import { flat } from '../painted-frames.ts';
import { PERSONAL_EXIF, personalJpeg, personalPng, personalWordsIn } from './personal-frame.ts';
import { exifFacts, wholeFile } from './read-back.ts';

const nothing = profileOf(latticeOf(2, 2, () => [0, 0, 0]));
const SOURCES = {
  JPEG: () => personalJpeg(flat(180)),
  PNG: async () => personalPng(toPng(flat(40_000, 16))),
  TIFF: async () => corrected(personalPng(toPng(flat(40_000, 16))), { format: 'tiff' }),
};

async function corrected(bytes: Uint8Array, options: CorrectOptions): Promise<Uint8Array> {
  const { parts } = await correctFrame({ name: 'a', bytes }, nothing, options, nodePlatform);
  return wholeFile(parts);
}

for (const [name, source] of Object.entries(SOURCES))
  for (const format of ['tiff', 'png', 'jpeg'] as const) {
    test(`a ${name} corrected into a ${format}: no owner, place or serial number where none is wanted`, async () => {
      const bytes = await source();
      const file = await corrected(bytes, { format, notes: 'impersonal' });
      expect(personalWordsIn(file)).toEqual([]);
      expect(await exifr.gps(Buffer.from(file))).toBeUndefined();
      const facts = await exifFacts(file);
      expect(facts).toMatchObject({
        Model: 'Camera 5',
        LensModel: 'Lens 85',
        FNumber: 5.6,
        ISO: 100,
        FocalLength: 85,
      });
      expect(facts).toMatchObject({ Orientation: 6, ExposureTime: 1 / 125 });
      expect(
        Object.keys(facts).filter((key) =>
          /GPS|OffsetTime|Serial|Owner|Artist|Copyright|^XP|Comment/.test(key),
        ),
      ).toEqual([]);
    });

    test(`a ${name} corrected into a ${format}: all that it notes where nothing is said`, async () => {
      const words = personalWordsIn(await corrected(await source(), { format }));
      for (const of of [
        'artist',
        'copyright',
        'owner',
        'body-serial',
        'lens-serial',
        'place',
        'note',
        'inner',
        'xmp-creator',
      ])
        expect(words).toContain(`ZzOwn-${of}`);
    });
  }

test('what is left says nothing of notes that did not fit, since none were wanted', async () => {
  const options = { format: 'jpeg', notes: 'impersonal' } as const;
  const { flags } = await correctFrame(
    { name: 'a', bytes: await SOURCES.JPEG() },
    nothing,
    options,
    nodePlatform,
  );
  expect(flags.filter((flag) => flag.includes('not carried on'))).toEqual([]);
});

test('impersonalExif() keeps what a correction is held against, and makes nothing of no Exif', () => {
  expect(shotFacts(impersonalExif(PERSONAL_EXIF)).model).toBe('Camera 5');
  expect(impersonalExif(Uint8Array.of(1, 2, 3))).toBeNull();
});

test('correctFrame() refuses other words for what is carried', async () => {
  const options = { notes: 'none' } as unknown as CorrectOptions;
  await expect(corrected(toPng(flat(180)), options)).rejects.toThrow(
    /notes is "none"; expected one of: all, impersonal/,
  );
});
