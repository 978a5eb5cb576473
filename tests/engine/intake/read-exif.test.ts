import exifr from 'exifr';
import { expect, test } from 'vitest';
import { readJpegSegments } from '../../../src/engine/intake/jpeg-segments.ts';
import { readPngChunks } from '../../../src/engine/intake/png-chunks.ts';
import { NO_EXIF, readExif } from '../../../src/engine/intake/read-exif.ts';
import { seededRandom } from '../../../src/engine/numeric/seeded-random.ts';
import { expectWithin } from '../../expect-within.ts';
import { sharedPhoto, sharedPhotoNames, sharedPhotosPresent } from '../../shared-photos.ts';
import { type TiffEntry, tiffBlock } from './tiff-block.ts';

const MAIN: readonly TiffEntry[] = [{ tag: 274, type: 3, value: [6] }];
const EXIF: readonly TiffEntry[] = [
  { tag: 33434, type: 5, value: [1, 125] },
  { tag: 33437, type: 5, value: [56, 10] },
  { tag: 34855, type: 3, value: [200] },
  { tag: 36867, type: 2, value: '2026:03:01 10:20:30' },
  { tag: 37386, type: 5, value: [500, 10] },
  { tag: 40961, type: 3, value: [65535] },
];

test('readExif(block) reads both byte orders alike', () => {
  for (const order of ['II', 'MM'] as const)
    expect(readExif(tiffBlock(order, MAIN, EXIF))).toEqual({
      orientation: 6,
      colourSpace: 65535,
      exposure: {
        seconds: 1 / 125,
        fNumber: 5.6,
        iso: 200,
        focalLengthMm: 50,
        takenAt: '2026-03-01T10:20:30',
      },
    });
});

test('readExif(block) gives null for what is absent, over zero, or no date', () => {
  const odd: TiffEntry[] = [
    { tag: 33434, type: 5, value: [1, 0] },
    { tag: 33437, type: 5, value: [0, 10] },
    { tag: 36867, type: 2, value: '0000:00:00 00:00:00' },
    { tag: 37386, type: 5, value: [85, 1] },
  ];
  expect(readExif(tiffBlock('MM', [], odd))).toEqual({
    orientation: 1,
    colourSpace: null,
    exposure: { seconds: null, fNumber: null, iso: null, focalLengthMm: 85, takenAt: null },
  });
  expect(readExif(tiffBlock('II', [{ tag: 274, type: 3, value: [9] }], []))).toEqual(NO_EXIF);
});

test('readExif(block) takes the 32-bit index where the 16-bit one is full', () => {
  const full: TiffEntry[] = [
    { tag: 34855, type: 3, value: [65535] },
    { tag: 34866, type: 4, value: [102400] },
  ];
  expect(readExif(tiffBlock('II', [], full)).exposure?.iso).toBe(102400);
});

test('readExif(block) finds the optional wide space by its Interoperability directory', () => {
  // the directory stands behind the block that points to it, 512 bytes on
  const file = (order: 'II' | 'MM', index: string, colourSpace: number) => {
    const exif: TiffEntry[] = [
      { tag: 40961, type: 3, value: [colourSpace] },
      { tag: 40965, type: 4, value: [512] },
    ];
    const block = new Uint8Array(600);
    block.set(tiffBlock(order, [], exif).subarray(0, 512));
    const view = new DataView(block.buffer);
    const little = order === 'II';
    view.setUint16(512, 1, little);
    [1, 2].forEach((value, i) => {
      view.setUint16(514 + 2 * i, value, little);
    });
    view.setUint32(518, 4, little);
    block.set(Buffer.from(`${index}\0`, 'latin1'), 522);
    return block;
  };
  for (const order of ['II', 'MM'] as const) {
    expect(readExif(file(order, 'R03', 65535)).colourSpace).toBe(2);
    expect(readExif(file(order, 'R98', 65535)).colourSpace).toBe(65535);
    expect(readExif(file(order, 'R03', 1)).colourSpace).toBe(1);
  }
});

test('readExif(block) neither throws nor hangs on any mutilated block', () => {
  const { uniform } = seededRandom(7);
  const good = tiffBlock('MM', MAIN, EXIF);
  const started = performance.now();
  for (let round = 0; round < 3000; round++) {
    const bent = good.slice(0, round % 3 === 0 ? Math.floor(uniform() * good.length) : good.length);
    for (let hit = 0; hit < 4; hit++)
      bent[Math.floor(uniform() * Math.min(200, bent.length))] = uniform() * 256;
    const { orientation } = readExif(bent);
    expect(orientation >= 1 && orientation <= 8).toBe(true);
  }
  const looped = good.slice();
  new DataView(looped.buffer).setUint32(8 + 2 + 12 + 8, 8); // Exif's directory is said to be the main one
  expect(readExif(looped).orientation).toBe(6);
  expect(performance.now() - started).toBeLessThan(2000);
});

test('readExif(block) agrees with another reader on blocks of both byte orders', async () => {
  for (const order of ['II', 'MM'] as const) {
    const block = tiffBlock(order, MAIN, EXIF);
    const ours = readExif(block);
    const referee = await exifr.parse(block, { translateValues: false, reviveValues: false });
    expect([ours.orientation, ours.colourSpace]).toEqual([referee.Orientation, referee.ColorSpace]);
    expect(ours.exposure).toEqual({
      seconds: referee.ExposureTime,
      fNumber: referee.FNumber,
      iso: referee.ISO,
      focalLengthMm: referee.FocalLength,
      takenAt: referee.DateTimeOriginal.replace(/^(\d+):(\d+):(\d+) /, '$1-$2-$3T'),
    });
  }
});

test.skipIf(!sharedPhotosPresent)(
  'readExif(block) reads the orientations of real JPEGs as another reader does',
  async () => {
    for (const name of sharedPhotoNames('orientation')) {
      const bytes = sharedPhoto(name);
      const { orientation } = readExif(readJpegSegments(bytes).exif!);
      expect(orientation).toBe(Number(/-(\d)/.exec(name)![1]));
      expect(orientation).toBe(await exifr.orientation(bytes));
    }
  },
);

test.skipIf(!sharedPhotosPresent)(
  'readExif(block) agrees with what a converter wrote beside it as text',
  () => {
    // a stray entry in these blocks makes the other reader give up on them altogether
    for (const name of sharedPhotoNames('linear-and-coded')) {
      const bytes = sharedPhoto(name);
      const { colourSpace, exposure } = readExif(readPngChunks(bytes).exif!);
      const written = textChunks(bytes);
      const fraction = (key: string) => {
        const [over, under] = written.get(key)!.split('/').map(Number);
        return over! / under!;
      };
      expect(String(colourSpace)).toBe(written.get('ColorSpace'));
      expectWithin(exposure!.seconds!, fraction('ExposureTime'), 1e-12);
      expectWithin(exposure!.fNumber!, fraction('FNumber'), 1e-12);
      expectWithin(exposure!.focalLengthMm!, fraction('FocalLength'), 1e-12);
      expect(exposure!.takenAt!.replace('T', ' ').replaceAll('-', ':')).toBe(written.get('DateTimeOriginal'));
      expect(exposure!.iso?.toString()).toBe(written.get('ISOSpeedRatings'));
    }
  },
);

/** A PNG's tEXt chunks of Exif values, by key. */
function textChunks(png: Uint8Array): Map<string, string> {
  const view = new DataView(png.buffer, png.byteOffset, png.byteLength);
  const texts = new Map<string, string>();
  for (let at = 8; at < png.length; at += 12 + view.getUint32(at)) {
    const data = Buffer.from(png.subarray(at + 4, at + 8 + view.getUint32(at))).toString('latin1');
    const entry = /^tEXtexif:(\w+)\0(.*)$/.exec(data);
    if (entry) texts.set(entry[1]!, entry[2]!);
  }
  return texts;
}
