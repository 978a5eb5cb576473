import sharp from 'sharp';
import { describe, expect, test } from 'vitest';
import { sharedPhoto, sharedPhotosPresent } from '../../shared-photos.ts';
import { rejectionOf } from './rejection-code.ts';
import { type TiffRecipe, type TiffTag, tiffFile } from './tiff-bytes.ts';

const plain: TiffRecipe = {
  widthPx: 40,
  heightPx: 30,
  channels: 3,
  samples: new Uint8Array(40 * 30 * 3).fill(99),
};
const withTags = (...tags: TiffTag[]) => tiffFile({ ...plain, tags });

describe('decodeTiffFile refuses by name', () => {
  const cases: readonly (readonly [string, TiffTag[], RegExp])[] = [
    ['CMYK', [[262, 3, [5]]], /CMYK, which is ink, not light/],
    ['CIELab', [[262, 3, [8]]], /CIELab/],
    ['ICCLab', [[262, 3, [9]]], /ICCLab/],
    ['YCbCr', [[262, 3, [6]]], /YCbCr/],
    ['log luminance', [[262, 3, [32845]]], /log luminance/],
    ['a JPEG inside', [[259, 3, [7]]], /holds a JPEG,/],
    ['a JPEG inside in the old manner', [[259, 3, [6]]], /holds a JPEG, in the old manner/],
    ['fax', [[259, 3, [4]]], /fax/],
    ['Zstandard', [[259, 3, [50000]]], /Zstandard/],
    ['a compression of no name', [[259, 3, [777]]], /compression 777/],
    ['bits in reverse', [[266, 3, [2]]], /reverse/],
    ['signed samples', [[339, 3, [2, 2, 2]]], /signed samples of 8 bits/],
    ['whole numbers of 32 bits', [[258, 3, [32, 32, 32]]], /unsigned samples of 32 bits/],
    [
      'floating point of 64 bits',
      [
        [258, 3, [64, 64, 64]],
        [339, 3, [3, 3, 3]],
      ],
      /floating-point samples of 64 bits/,
    ],
    ['channels of different depths', [[258, 3, [5, 6, 5]]], /different depths \(5, 6, 5\)/],
    [
      'a predictor of no meaning',
      [
        [317, 3, [9]],
        [259, 3, [8]],
      ],
      /predictor 9/,
    ],
  ];
  test.each(cases)('%s', async (_what, tags, says) => {
    const error = await rejectionOf(withTags(...tags));
    expect(error.code).toBe('unsupported-file');
    expect(error.message).toMatch(says);
    expect(error.message).toMatch(/not read yet\. Export it .*\.$/);
  });

  test('a BigTIFF', async () => {
    const bytes = await sharp(Buffer.alloc(40 * 30 * 3, 99), { raw: { width: 40, height: 30, channels: 3 } })
      .tiff({ bigtiff: true, compression: 'none' })
      .toBuffer();
    const error = await rejectionOf(new Uint8Array(bytes));
    expect([error.code, error.message]).toEqual([
      'unsupported-file',
      expect.stringMatching(/BigTIFF.*Export it/),
    ]);
  });

  const raws: readonly (readonly [string, TiffTag[]])[] = [
    ['a mosaic', [[262, 3, [32803]]]],
    ['linear raw', [[262, 3, [34892]]]],
    ['a DNG version', [[50706, 1, [1, 4, 0, 0]]]],
    ['a maker’s compression', [[259, 3, [34713]]]],
    [
      'a reduced picture with the full one elsewhere',
      [
        [254, 4, [1]],
        [330, 4, [8]],
      ],
    ],
  ];
  test.each(raws)('a raw file of no known camera, told by %s', async (_what, tags) => {
    const error = await rejectionOf(withTags(...tags));
    expect([error.code, error.detail.format]).toEqual(['unsupported-file', 'raw']);
    expect(error.message).toMatch(/raw file of a camera or a kind that is not known here.*Export it/);
  });
});

test.skipIf(!sharedPhotosPresent)('decodeTiffFile hands real raw files on as raw', async () => {
  for (const name of ['cut-a.arw', 'cut-c.dng', 'cut-d.nef']) {
    const error = await rejectionOf(sharedPhoto(`raw-cut-short/${name}`));
    expect([name, error.code, error.detail.format]).toEqual([name, 'unreadable-file', 'raw']);
  }
});

describe('decodeTiffFile calls damaged what can not be the picture it claims:', () => {
  const cases: readonly (readonly [string, Uint8Array, RegExp])[] = [
    ['a header alone', Uint8Array.of(0x49, 0x49, 42, 0, 8, 0, 0, 0), /ends before its first directory/],
    ['a directory beyond the end', Uint8Array.of(0x4d, 0x4d, 0, 42, 255, 0, 0, 0, 1, 2), /ends before/],
    ['no colours stated', withTags([262, 3, []]), /how its colours are stored/],
    ['two samples for red, green and blue', withTags([277, 3, [2]]), /2 samples a pixel/],
    [
      'a palette too short',
      withTags([262, 3, [3]], [277, 3, [1]], [320, 3, [1, 2, 3]]),
      /palette has 3 values, 768/,
    ],
    ['strips that are not named', withTags([278, 4, [1]]), /names 1 of its 30 pieces/],
    ['strips of no rows', withTags([278, 4, [0]]), /pieces measure/],
    ['tiles of absurd size', withTags([322, 4, [0xffffffff]], [323, 4, [0xffffffff]]), /pieces measure/],
    ['a strip beyond the end', withTags([273, 4, [0xfffffff0]]), /ends at \d+ bytes/],
    [
      'a size that its bytes can not hold',
      withTags([257, 4, [1_000_000]], [278, 4, [1_000_000]], [259, 3, [5]]),
      /can’t hold/,
    ],
    ['a side of 0', withTags([256, 4, [0]]), /0 × 30/],
    ['a stream that is none', withTags([259, 3, [8]]), /does not decompress/],
    ['LZW of impossible codes', withTags([259, 3, [5]]), /ends at|does not decompress/],
  ];
  test.each(cases)('%s', async (_what, bytes, says) => {
    const error = await rejectionOf(bytes);
    expect([error.code, error.message]).toEqual(['unreadable-file', expect.stringMatching(says)]);
    expect(error.message).toMatch(/\. (Copy|Export) .*\.$/);
  });

  test('any file cut short within its pixels', async () => {
    const samples = Uint8Array.from({ length: 40 * 30 * 3 }, (_, i) => (i * 7919) % 251);
    for (const compression of ['none', 'deflate', 'packbits'] as const) {
      // the directory stands behind the pixels here, so that cutting it would prove nothing: the strip is shortened
      const whole = tiffFile({ ...plain, samples, compression });
      const shortened = tiffFile({
        ...plain,
        samples,
        compression,
        tags: [[279, 4, [compression === 'packbits' ? 3000 : 900]]],
      });
      expect(shortened.length).toBe(whole.length);
      expect((await rejectionOf(shortened)).code).toBe('unreadable-file');
    }
  });
});

test('decodeTiffFile refuses a size that is too large before anything is allocated', async () => {
  const error = await rejectionOf(withTags([256, 4, [100_000]], [257, 4, [100_000]]));
  expect([error.code, error.message]).toEqual(['too-large', expect.stringMatching(/100000 × 100000/)]);
  expect((await rejectionOf(tiffFile({ ...plain, widthPx: 8 }))).code).toBe('too-small');
});

test('decodeTiffFile follows no chain of directories twice', async () => {
  const looped = tiffFile({ ...plain, tags: [[254, 4, [1]]] });
  const view = new DataView(looped.buffer);
  const start = view.getUint32(4, true);
  view.setUint32(start + 2 + 12 * view.getUint16(start, true), start, true);
  const error = await rejectionOf(looped);
  expect([error.code, error.message]).toEqual([
    'unreadable-file',
    expect.stringMatching(/none of its directories/),
  ]);
});
