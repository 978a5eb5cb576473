import { checkPictureSize } from './picture-size.ts';
import type { TiffDirectory } from './tiff-directory.ts';
import { damagedTiff, unreadTiff } from './tiff-refusals.ts';

/** How a TIFF's picture is stored. Source of the numbers: TIFF 6.0; predictor 3: its technical note 3. */
export interface TiffHeader {
  readonly widthPx: number;
  readonly heightPx: number;
  /** Samples of a pixel in the file, those that are left aside included. */
  readonly storedChannels: number;
  /** Bits of a stored sample. */
  readonly depth: number;
  readonly isFloat: boolean;
  readonly compression: TiffCompression;
  /** 1 none, 2 differences along the row, 3 the same of floating point by bytes. */
  readonly predictor: 1 | 2 | 3;
  /** Whether each channel has strips or tiles of its own. */
  readonly isPlanar: boolean;
  readonly colour: 'white-is-zero' | 'grey' | 'rgb' | 'palette';
  /** Red, green and blue of every index, as stored: three runs of 16-bit values; `null` without a palette. */
  readonly palette: Uint16Array | null;
  /** Whether the first sample after the colours is alpha, and whether the colours are multiplied by it. */
  readonly alpha: 'none' | 'unassociated' | 'associated';
  readonly littleEndian: boolean;
}

export type TiffCompression = 'none' | 'lzw' | 'deflate' | 'packbits';

const TAG = {
  imageWidth: 256,
  imageLength: 257,
  bitsPerSample: 258,
  compression: 259,
  photometric: 262,
  fillOrder: 266,
  samplesPerPixel: 277,
  planarConfiguration: 284,
  predictor: 317,
  colorMap: 320,
  extraSamples: 338,
  sampleFormat: 339,
} as const;

const COMPRESSIONS: Readonly<Record<number, TiffCompression>> = {
  1: 'none',
  5: 'lzw',
  8: 'deflate',
  32773: 'packbits',
  32946: 'deflate',
};

const UNREAD_COMPRESSIONS: Readonly<Record<number, string>> = {
  2: 'is compressed for fax',
  3: 'is compressed for fax',
  4: 'is compressed for fax',
  6: 'holds a JPEG, in the old manner',
  7: 'holds a JPEG',
  34712: 'holds a JPEG 2000 picture',
  34925: 'is compressed by LZMA',
  50000: 'is compressed by Zstandard',
  50001: 'holds a WebP picture',
  50002: 'holds a JPEG XL picture',
};

const COLOURS: Readonly<Record<number, TiffHeader['colour']>> = {
  0: 'white-is-zero',
  1: 'grey',
  2: 'rgb',
  3: 'palette',
};

const UNREAD_COLOURS: Readonly<Record<number, string>> = {
  4: 'holds a mask',
  5: 'is in CMYK, which is ink, not light',
  6: 'is in YCbCr',
  8: 'is in CIELab',
  9: 'is in ICCLab',
  10: 'is in ITULab',
  32844: 'is coded in log luminance',
  32845: 'is coded in log luminance',
};

const AS_RGB = 'in RGB, as a 16-bit TIFF or PNG';
const PLAINLY = 'as a TIFF with LZW, ZIP or no compression';
/** Room for a colour, alpha and whatever masks an editor adds. */
const MOST_CHANNELS = 32;

/**
 * Reads and checks what a directory says of its picture, before anything is allocated for it.
 *
 * @throws {@link EngineError} `unreadable-file`, `unsupported-file`, `too-large` or `too-small`.
 */
export function readTiffHeader(directory: TiffDirectory, littleEndian: boolean): TiffHeader {
  const one = (tag: number, otherwise: number) => directory.number(tag) ?? otherwise;
  const widthPx = one(TAG.imageWidth, 0);
  const heightPx = one(TAG.imageLength, 0);
  const colour = colourOf(directory.number(TAG.photometric));
  const compressed = one(TAG.compression, 1);
  const compression = COMPRESSIONS[compressed];
  if (!compression)
    throw unreadTiff(UNREAD_COMPRESSIONS[compressed] ?? `has compression ${compressed}`, PLAINLY);
  checkPictureSize(widthPx, heightPx);
  if (one(TAG.fillOrder, 1) !== 1) throw unreadTiff('stores the bits of each byte in reverse', PLAINLY);
  const storedChannels = one(TAG.samplesPerPixel, 1);
  const colours = colour === 'rgb' ? 3 : 1;
  if (!Number.isInteger(storedChannels) || storedChannels < colours || storedChannels > MOST_CHANNELS)
    throw damagedTiff(
      `it claims ${storedChannels} samples a pixel, ${colours} to ${MOST_CHANNELS} were needed`,
    );
  const depth = uniform(directory, TAG.bitsPerSample, storedChannels, 1, 'depths');
  const format = uniform(directory, TAG.sampleFormat, storedChannels, 1, 'kinds of number');
  const isFloat = format === 3;
  checkDepth(depth, format);
  const predictor = one(TAG.predictor, 1);
  checkPredictor(predictor, depth, isFloat);
  const palette = colour === 'palette' ? paletteOf(directory, depth, isFloat) : null;
  const extra =
    storedChannels > colours && colour !== 'palette' ? directory.numbers(TAG.extraSamples)?.[0] : 0;
  return {
    widthPx,
    heightPx,
    storedChannels,
    depth,
    isFloat,
    compression,
    predictor: compression === 'lzw' || compression === 'deflate' ? predictor : 1,
    isPlanar: one(TAG.planarConfiguration, 1) === 2 && storedChannels > 1,
    colour,
    palette,
    alpha: extra === 1 ? 'associated' : extra === 2 ? 'unassociated' : 'none',
    littleEndian,
  };
}

function colourOf(photometric: number | null): TiffHeader['colour'] {
  if (photometric === null) throw damagedTiff('it does not say how its colours are stored');
  const colour = COLOURS[photometric];
  if (!colour) throw unreadTiff(UNREAD_COLOURS[photometric] ?? `has colour coding ${photometric}`, AS_RGB);
  return colour;
}

/** The one value that all channels share. */
function uniform(
  directory: TiffDirectory,
  tag: number,
  channels: number,
  absent: number,
  what: string,
): number {
  const values = directory.numbers(tag, MOST_CHANNELS) ?? Float64Array.of(absent);
  const stated = values.subarray(0, channels);
  if (stated.some((value) => value !== stated[0]))
    throw unreadTiff(`has channels of different ${what} (${stated.join(', ')})`, AS_RGB);
  return stated[0]!;
}

const FORMATS = ['', 'unsigned', 'signed', 'floating-point', 'untyped', 'complex', 'complex'];

function checkDepth(depth: number, format: number): void {
  const read = format === 3 ? depth === 16 || depth === 32 : depth >= 1 && depth <= 16;
  if ((format === 1 || format === 3 || format === 4) && Number.isInteger(depth) && read) return;
  throw unreadTiff(`has ${FORMATS[format] ?? 'unknown'} samples of ${depth} bits`, 'with 16 bits a channel');
}

function checkPredictor(predictor: number, depth: number, isFloat: boolean): asserts predictor is 1 | 2 | 3 {
  const isWholeBytes = depth === 8 || depth === 16 || depth === 32;
  if (predictor === 1 || (predictor === 2 && isWholeBytes) || (predictor === 3 && isFloat)) return;
  throw unreadTiff(`has predictor ${predictor} at ${depth} bits`, PLAINLY);
}

function paletteOf(directory: TiffDirectory, depth: number, isFloat: boolean): Uint16Array {
  const needed = 3 * 2 ** depth;
  const map = directory.numbers(TAG.colorMap, needed);
  if (map?.length !== needed || isFloat)
    throw damagedTiff(`its palette has ${map?.length ?? 0} values, ${needed} were needed`);
  return Uint16Array.from(map);
}
