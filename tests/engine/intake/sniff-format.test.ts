import { expect, test } from 'vitest';
import { sniffFormat } from '../../../src/engine/intake/sniff-format.ts';
import { sharedPhoto, sharedPhotosPresent } from '../../shared-photos.ts';
import { rejectionOf } from './rejection-code.ts';

const latin = (text: string) => new Uint8Array(Buffer.from(text, 'latin1'));
const SAMPLES: readonly (readonly [format: string, start: string])[] = [
  ['empty', ''],
  ['text', 'BM is how this note begins,\r\nand it goes on.'],
  ['text', '\xff\xfeh\0i\0'],
  ['jpeg', '\xff\xd8\xff\xe0'],
  ['png', '\x89PNG\r\n\x1a\n'],
  ['tiff', 'II*\0\x08\0\0\0'],
  ['tiff', 'MM\0*\0\0\0\x08'],
  ['raw', 'II*\0\x10\0\0\0CR\x02\0'],
  ['raw', 'IIU\0\x18\0\0\0'],
  ['raw', 'II\x1a\0\0\0HEAPCCDR'],
  ['raw', '\0MRM\0\0\x10\0'],
  ['raw', '\0\0\0\x18ftypcrx \0\0\0\x01'],
  ['webp', 'RIFF\x10\0\0\0WEBPVP8 '],
  ['avif', '\0\0\0\x1cftypavif\0\0\0\0'],
  ['heic', '\0\0\0\x18ftypheic\0\0\0\0'],
  ['avif', '\0\0\0\x1cftypmif1\0\0\0\0mif1avif'],
  ['heic', '\0\0\0\x1cftypmif1\0\0\0\0mif1heic'],
  ['gif', 'GIF89a\x10\0\x10\0'],
  ['bmp', 'BM\x36\0\0\0\0\0'],
  ['jpeg-xl', '\xff\x0a\x10'],
  ['unknown', '\0\0\0\0\0\0\0\0'],
  ['unknown', 'RIFF\x10\0\0\0WAVEfmt '],
];

test('sniffFormat(bytes) tells a format by its first bytes', () => {
  for (const [format, start] of SAMPLES) expect(sniffFormat(latin(start)), start).toBe(format);
});

test('decodeImage(bytes) answers what it can not read with the code of the kind and a way out', async () => {
  for (const [format, start] of SAMPLES) {
    if (['jpeg', 'png', 'tiff', 'raw', 'webp', 'avif', 'heic'].includes(format)) continue;
    const error = await rejectionOf(latin(start));
    const none = ['empty', 'text', 'unknown'].includes(format);
    expect(error.code).toBe(none ? 'not-an-image' : 'unsupported-file');
    expect(error.message).toMatch(none ? /was needed\. [A-Z].*\.$/ : /not read yet\. Export it .*\.$/);
  }
});

test('decodeImage(bytes) says of a raw file that is hardly there what it is and what to do', async () => {
  const codes = [];
  for (const [format, start] of SAMPLES) {
    if (format !== 'raw') continue;
    const error = await rejectionOf(latin(start));
    expect(error.message).toMatch(/raw file.*(Export it .*|Copy it from the card again)\.$/);
    codes.push(error.code);
  }
  expect(codes).toEqual(Array(5).fill('unreadable-file'));
});

test.skipIf(!sharedPhotosPresent)(
  'sniffFormat(bytes) knows raw files by what stands after their TIFF header',
  () => {
    expect(sniffFormat(sharedPhoto('raw-cut-short/cut-b.cr2'))).toBe('raw');
    expect(sniffFormat(sharedPhoto('raw-cut-short/cut-c.dng'))).toBe('tiff');
  },
);
