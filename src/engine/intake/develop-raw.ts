import { EngineError } from '../engine-error.ts';
import type { Vector3 } from '../numeric/matrix3.ts';
import { checkLevels } from './cell-levels.ts';
import type { DngTags } from './dng-tags.ts';
import type { DevelopWishes, RawFile } from './raw-file.ts';
import { unknownColours } from './raw-refusals.ts';
import type { StoredImage } from './stored-image.ts';
import type { RawCodes, RawColour } from './stored-raw.ts';

/** What of a raw file's picture is handed on. */
export interface RawPicture extends Pick<StoredImage, 'widthPx' | 'heightPx' | 'channels' | 'samples'> {
  readonly codes: RawCodes;
  readonly from: 'cells' | 'developed';
  readonly fullWidthPx: number;
  readonly fullHeightPx: number;
  readonly blackDoubt: number;
  readonly says: readonly string[];
}

/**
 * For measuring anything but a plain Bayer mosaic: the decoder takes off black, and what lies below is cut off. Codes
 * stay the sensor's own.
 */
export async function linearHalf(raw: RawFile, dng: DngTags | null): Promise<RawPicture> {
  const picture = await developed(raw, { halfSize: true, multipliers: null }, dng);
  const { widthPx, heightPx } = picture;
  const isHalf = raw.metadata.width > widthPx && raw.metadata.height > heightPx;
  return {
    ...picture,
    ...(isHalf ? fullSize(raw, widthPx, heightPx) : { fullWidthPx: widthPx, fullHeightPx: heightPx }),
    says: [
      isHalf
        ? 'Its sensor is no plain 2 × 2 mosaic: a linear picture of half the size was developed from it, and noise below black is cut off.'
        : 'It holds no mosaic of cells: its linear picture was read, and noise below black is cut off.',
    ],
  };
}

/**
 * For correcting: the whole picture, interpolated, balanced by the file's own white balance, since what interpolates
 * takes neutral edges for neutral then. Where there is nothing to interpolate codes stay the file's own: the decoder,
 * asked to scale a picture without a mosaic, takes black off white twice. The size told is the one that is told where
 * its cells are measured.
 */
export async function wholePicture(
  raw: RawFile,
  dng: DngTags | null,
  { neutral }: RawColour,
): Promise<RawPicture> {
  const isMosaic = raw.metadata.filters !== 0;
  const multipliers = isMosaic ? (neutral ? balanceOf(neutral) : NOTHING_DONE) : null;
  const picture = await developed(raw, { halfSize: false, multipliers }, dng);
  const { widthPx, heightPx } = picture;
  const area = dng?.activeArea;
  // the decoder leaves out a column or row of an odd start
  const [right, down] = area ? [area.right - area.left - widthPx, area.bottom - area.top - heightPx] : [0, 0];
  const isNear = (pixels: number) => pixels >= 0 && pixels <= 2;
  const more = isNear(right) && isNear(down) ? { right, down } : { right: 0, down: 0 };
  return { ...picture, fullWidthPx: widthPx + more.right, fullHeightPx: heightPx + more.down, says: [] };
}

const NOTHING_DONE: Vector3 = [1, 1, 1];

/** What red, green and blue are multiplied by to make a neutral neutral; the least is 1. */
export function balanceOf([red, green, blue]: Vector3): Vector3 {
  const most = Math.max(red, green, blue);
  return [most / red, most / green, most / blue];
}

type Developed = Omit<RawPicture, 'fullWidthPx' | 'fullHeightPx' | 'says'>;

async function developed(raw: RawFile, wishes: DevelopWishes, dng: DngTags | null): Promise<Developed> {
  const { width, height, colors, data, maximum } = await raw.developed(wishes);
  if (colors !== 1 && colors !== 3) throw unknownColours(colors);
  if (data.length !== width * height * colors)
    throw new EngineError(
      'unreadable-file',
      'The raw file is damaged: its picture is not of the size it claims. Copy it from the card again.',
    );
  const { multipliers } = wishes;
  return {
    ...{ widthPx: width, heightPx: height, channels: colors, samples: data, from: 'developed' },
    codes: multipliers ? scaledCodes(multipliers) : ownCodes(dng ? rangeOf(dng, raw) : maximum),
    blackDoubt: 0,
  };
}

/** Black at 0; what a channel was multiplied by beyond white is cut off, so its own white lies above all codes. */
function scaledCodes(multipliers: Vector3): RawCodes {
  const white = multipliers.map((times) => 65535 * times) as unknown as Vector3;
  return { zero: [0, 0, 0], white, clip: 65520, black: 0, blackMean: 16 };
}

function ownCodes(white: number): RawCodes {
  return { zero: [0, 0, 0], white: [white, white, white], clip: Math.ceil(white), black: 0, blackMean: 2 };
}

/** From black to white, as a DNG states them. */
function rangeOf({ black, white }: DngTags, { metadata }: RawFile): number {
  const level = black.levels.reduce((sum, value) => sum + value, 0) / black.levels.length;
  const top = white ?? metadata.color_data.maximum;
  checkLevels([level], top);
  return top - level;
}

/** The decoder gives its size upright, and the picture as stored. */
function fullSize({ metadata }: RawFile, widthPx: number, heightPx: number) {
  const long = Math.max(metadata.width, metadata.height);
  const short = Math.min(metadata.width, metadata.height);
  return widthPx >= heightPx
    ? { fullWidthPx: long, fullHeightPx: short }
    : { fullWidthPx: short, fullHeightPx: long };
}
