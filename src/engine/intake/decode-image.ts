import { EngineError } from '../engine-error.ts';
import { fetchedPart } from '../fetched-part.ts';
import { decodeJpegFile } from './decode-jpeg-file.ts';
import type { FileDecoder } from './file-decoder.ts';
import { type FileFormat, sniffFormat } from './sniff-format.ts';

/** A decoder and what it reads, in words; all but the commonest are fetched when the first such file is opened. */
type FoundDecoder = readonly [what: string, find: () => Promise<FileDecoder>];

/** The door for further formats: a decoder entered here is all that a new one needs. */
const DECODERS: Partial<Record<FileFormat, FoundDecoder>> = {
  jpeg: ['JPEG', async () => decodeJpegFile],
  png: ['PNG', async () => (await import('./decode-png-file.ts')).decodePngFile],
  tiff: ['TIFF', async () => (await import('./decode-tiff-file.ts')).decodeTiffFile],
  raw: ['raw', async () => (await import('./decode-raw-file.ts')).decodeRawFile],
  webp: ['WebP', async () => (await import('./decode-webp-file.ts')).decodeWebpFile],
  avif: ['AVIF', async () => (await import('./decode-heif-file.ts')).decodeAvifFile],
  heic: ['HEIC', async () => (await import('./decode-heif-file.ts')).decodeHeicFile],
};

/** What a photographer calls a format that is recognised and not read. */
const NOT_READ_YET: Partial<Record<FileFormat, string>> = {
  gif: 'a GIF picture',
  bmp: 'a bitmap',
  'jpeg-xl': 'a JPEG XL picture',
  'jpeg-2000': 'a JPEG 2000 picture',
  openexr: 'an OpenEXR picture',
  layered: 'an editor’s layered file',
};

/**
 * Decodes a picture file to its pixels as stored, telling its format by content.
 *
 * @throws {@link EngineError} `not-an-image`, `unsupported-file`, `unreadable-file`, `too-large` or `too-small`.
 */
export const decodeImage: FileDecoder = async (bytes, platform, onProgress, wishes) => {
  const format = sniffFormat(bytes);
  const found = DECODERS[format];
  if (found) {
    const decode = await fetchedPart(`reads ${found[0]} files`, found[1]);
    return decode(bytes, platform, onProgress, wishes);
  }
  const known = NOT_READ_YET[format];
  if (known)
    throw new EngineError(
      'unsupported-file',
      `This is ${known}, which is not read yet. Export it ${AS_WHAT}.`,
      {
        format,
      },
    );
  throw new EngineError('not-an-image', notAnImage(format, bytes.length), { format, bytes: bytes.length });
};

const AS_WHAT = 'as a 16-bit TIFF or PNG, or as a JPEG at the best quality';

function notAnImage(format: FileFormat, length: number): string {
  if (format === 'empty')
    return 'The file is empty (0 bytes); a JPEG, PNG, TIFF, raw, WebP or AVIF file was needed. Copy it from the card again.';
  if (format === 'text')
    return 'The file holds text; a JPEG, PNG, TIFF, raw, WebP or AVIF file was needed. Choose the picture itself.';
  return `The file’s ${length} bytes are no picture that is known here; a JPEG, PNG, TIFF, raw, WebP or AVIF file was needed. Choose another file, or export it ${AS_WHAT}.`;
}
