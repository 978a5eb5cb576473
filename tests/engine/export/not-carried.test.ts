import { describe, expect, test } from 'vitest';
import type { CorrectedPicture } from '../../../src/engine/correct/corrected-picture.ts';
import { notCarried } from '../../../src/engine/export/not-carried.ts';
import {
  WRITTEN_FORMATS,
  type WrittenFormat,
  writePicture,
} from '../../../src/engine/export/write-picture.ts';
import { nodePlatform } from '../../node-platform.ts';
import { tumblerExif } from './exif-of-camera.ts';
import { wholeFile } from './read-back.ts';

const plain = { format: 'jpeg', channels: 4, orientation: 6, exif: null, xmp: null } as const;

async function written(exif: Uint8Array | null, xmp: Uint8Array | null, format: WrittenFormat) {
  const picture: CorrectedPicture = {
    ...({ widthPx: 8, heightPx: 8, channels: 3, bitsPerSample: 8, samples: new Uint8Array(192) } as const),
    ...{ orientation: 6, iccProfile: null, exif, xmp },
  };
  return Buffer.from(wholeFile((await writePicture(picture, format, nodePlatform)).parts));
}

describe('notCarried(stored, format) tells what the file that is written does not hold, and nothing else:', () => {
  for (const order of ['II', 'MM'] as const)
    for (const format of WRITTEN_FORMATS)
      for (const bytes of [40, 70_000])
        test(`a maker’s note of ${bytes} bytes in ${order} order, as ${format}`, async () => {
          const makerNote = Buffer.alloc(bytes, 0x41);
          const exif = tumblerExif(order, { makerNote });
          const isThere = (await written(exif, null, format)).includes(makerNote);
          expect(isThere).toBe(format === 'png' || (format === 'tiff' ? order === 'II' : bytes === 40));
          const says = notCarried({ ...plain, exif }, format);
          if (isThere) expect(says).toEqual([]);
          else expect(says).toEqual([expect.stringMatching(/maker’s own note .*not carried on/)]);
        });

  test('values that a JPEG has no room for', async () => {
    const comment = Buffer.alloc(70_000, 0x42);
    for (const makerNote of [undefined, Buffer.alloc(40, 0x41)]) {
      const exif = tumblerExif('II', { comment, ...(makerNote && { makerNote }) });
      const file = await written(exif, null, 'jpeg');
      expect(file.includes(comment)).toBe(false);
      expect(notCarried({ ...plain, exif }, 'jpeg').join()).toContain(
        makerNote
          ? '64 KB that a JPEG takes: the maker’s own note and values of more than 1 KB are not carried on'
          : '64 KB that a JPEG takes: values of more than 1 KB are not carried on',
      );
      if (makerNote) expect(file.includes(makerNote)).toBe(false);
      expect(notCarried({ ...plain, exif }, 'png')).toEqual([]);
    }
  });

  test('XMP that a JPEG has no room for', async () => {
    const xmp = Buffer.alloc(70_000, 0x43);
    expect((await written(null, xmp, 'jpeg')).includes(xmp)).toBe(false);
    expect(notCarried({ ...plain, xmp }, 'jpeg')).toEqual([expect.stringContaining('Its XMP')]);
    expect((await written(null, xmp, 'png')).includes(xmp)).toBe(true);
    expect(notCarried({ ...plain, xmp }, 'png')).toEqual([]);
  });

  test('damaged Exif, IPTC and transparency', () => {
    expect(notCarried({ ...plain, exif: new Uint8Array(30) }, 'png')).toEqual([
      expect.stringContaining('Exif is damaged'),
    ]);
    expect(notCarried({ ...plain, hasIptc: true }, 'tiff')).toEqual([expect.stringContaining('IPTC')]);
    const png = { ...plain, format: 'png' } as const;
    expect(notCarried(png, 'jpeg')).toEqual([expect.stringContaining('holds no transparency')]);
    expect(notCarried(png, 'png')).toEqual([]);
  });
});
