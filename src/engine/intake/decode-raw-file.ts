import { EngineError } from '../engine-error.ts';
import { type BayerOrder, bayerOrder } from './bayer-order.ts';
import { binBayer } from './bin-bayer.ts';
import { blackByDeveloping } from './black-by-developing.ts';
import { blackOfChannels, type CellLevels, dngLevels } from './cell-levels.ts';
import { type DngTags, readDngTags } from './dng-tags.ts';
import type { FileDecoder } from './file-decoder.ts';
import { maskedBlack } from './masked-margin.ts';
import { pictureInMosaic } from './picture-in-mosaic.ts';
import { checkPictureSize } from './picture-size.ts';
import { cameraOf, colourOf, exposureOf, orientationOf } from './raw-facts.ts';
import type { RawFile, RawMosaic } from './raw-file.ts';
import { rawNotRead, rawRefusal, unknownColours } from './raw-refusals.ts';
import type { StoredImage } from './stored-image.ts';
import type { RawCodes } from './stored-raw.ts';

/** Shares of the work: opening, unpacking, taking cells together. */
const OPENED = 0.1;
const UNPACKED = 0.6;

type Samples = Pick<StoredImage, 'widthPx' | 'heightPx' | 'channels' | 'samples'>;
interface ReadCells extends Samples {
  readonly codes: RawCodes;
  readonly from: 'cells' | 'developed';
  readonly fullWidthPx: number;
  readonly fullHeightPx: number;
  readonly blackDoubt: number;
  readonly says: readonly string[];
}

/**
 * Reads a camera's raw file: cells of a Bayer sensor straight from the mosaic, anything else by the decoder's half-size
 * linear picture. Levels and colours come from a DNG's own tags, else from what the decoder knows of the camera.
 *
 * @throws {@link EngineError} as `decodeImage`.
 */
export const decodeRawFile: FileDecoder = async (bytes, platform, onProgress) => {
  if (!platform.openRaw) throw rawNotRead();
  const raw = await platform.openRaw(bytes).catch((error: unknown) => {
    throw rawRefusal(error, bytes);
  });
  try {
    const { metadata } = raw;
    checkPictureSize(metadata.width, metadata.height);
    onProgress?.(OPENED);
    const dng = readDngTags(bytes);
    const read = await readCells(raw, dng, onProgress).catch((error: unknown) => {
      throw rawRefusal(error, bytes);
    });
    onProgress?.(1);
    const { widthPx, heightPx, channels, samples } = read;
    return {
      ...{ format: 'raw', widthPx, heightPx, channels, bitsPerSample: 16, samples },
      orientation: orientationOf(bytes, metadata),
      ...{ iccProfile: null, gamma: null, exifColourSpace: null, xmp: null, jpegDcSteps: null },
      exposure: exposureOf(bytes, metadata),
      exif: bytes,
      readingSays: read.says,
      raw: {
        widthPx: read.fullWidthPx,
        heightPx: read.fullHeightPx,
        from: read.from,
        camera: cameraOf(metadata),
        codes: read.codes,
        colour: colourOf(metadata, dng),
        blackDoubt: read.blackDoubt,
      },
    };
  } finally {
    raw.dispose();
  }
};

async function readCells(
  raw: RawFile,
  dng: DngTags | null,
  onProgress?: (fraction: number) => void,
): Promise<ReadCells> {
  const foundOrder = bayerOrder(raw.metadata);
  const whole = foundOrder && (await raw.mosaic());
  if (!foundOrder || !whole) return await byDeveloping(raw);
  onProgress?.(UNPACKED);
  const { mosaic, order } = pictureInMosaic(whole, foundOrder, dng?.activeArea ?? null);
  const known = await levelsOf(raw, dng, mosaic, order);
  if (!known) return await byDeveloping(raw);
  const { levels, isPerChannel } = known;
  const { widthPx, heightPx, samples, codes } = binBayer(mosaic, order, levels, (fraction) =>
    onProgress?.(UNPACKED + (1 - UNPACKED) * fraction),
  );
  const doubt = blackDoubt(mosaic, order, levels, isPerChannel);
  return {
    ...{ widthPx, heightPx, channels: 3, samples, codes, from: 'cells' },
    fullWidthPx: mosaic.width,
    fullHeightPx: mosaic.height,
    blackDoubt: doubt.share,
    says: [FOUR_CELLS, ...doubt.says],
  };
}

const FOUR_CELLS =
  'Each 2 × 2 cells of the sensor count as one pixel, not interpolated; it is clipped in a colour where any of that colour’s cells is.';

interface KnownLevels {
  readonly levels: CellLevels;
  /** Whether black was told for each channel. */
  readonly isPerChannel: boolean;
}

/** `null` where the decoder does more to the cells than to take off one black for each channel. */
async function levelsOf(
  raw: RawFile,
  dng: DngTags | null,
  mosaic: RawMosaic,
  order: BayerOrder,
): Promise<KnownLevels | null> {
  const { black, maximum } = raw.metadata.color_data;
  if (dng) return { levels: dngLevels(dng, mosaic, maximum), isPerChannel: true };
  const found = blackByDeveloping(mosaic, order, await raw.developed({ halfSize: true, multipliers: null }));
  if (found === null) return null;
  const white: CellLevels['white'] = [maximum, maximum, maximum];
  return found === 'too-dark'
    ? { levels: { black: [black, black, black, black], beyond: null, white }, isPerChannel: false }
    : { levels: { black: found, beyond: null, white }, isPerChannel: true };
}

/** Masked cells this far from black, as a share of white, are no masked cells. */
const NO_MARGIN_SHARE = 0.05;
/** A difference below this many of the sensor's codes is what any two means differ by. */
const NO_DOUBT_CODES = 0.5;

function blackDoubt(
  mosaic: RawMosaic,
  order: BayerOrder,
  levels: CellLevels,
  isPerChannel: boolean,
): { share: number; says: string[] } {
  const range = levels.white[1] - levels.black[1];
  const told = blackOfChannels(levels, order);
  const masked = maskedBlack(mosaic);
  const seen = masked && blackOfChannels({ ...levels, black: masked }, order);
  const off = seen ? Math.max(...seen.map((level, channel) => Math.abs(level - told[channel]!))) : 0;
  if (off > NO_DOUBT_CODES && off < NO_MARGIN_SHARE * range)
    return {
      share: off / range,
      says: [
        `The sensor's masked margin reads ${off.toFixed(1)} codes beside the black level that the file gives, out of ${Math.round(range)} to white.`,
      ],
    };
  if (isPerChannel) return { share: 0, says: [] };
  return {
    share: 1 / range,
    says: [
      `Black could not be told for each channel, so one level is taken for all: it may be a code off, out of ${Math.round(range)} to white.`,
    ],
  };
}

/** Anything but a plain Bayer mosaic: the decoder takes off black, and what lies below is cut off. */
async function byDeveloping(raw: RawFile): Promise<ReadCells> {
  const { width, height, colors, data } = await raw.developed({ halfSize: true, multipliers: [1, 1, 1] });
  if (colors !== 1 && colors !== 3) throw unknownColours(colors);
  if (data.length !== width * height * colors)
    throw new EngineError(
      'unreadable-file',
      'The raw file is damaged: its picture is not of the size it claims. Copy it from the card again.',
    );
  const isHalf = raw.metadata.width > width && raw.metadata.height > height;
  const [fullWidthPx, fullHeightPx] = isHalf ? fullSize(raw, width, height) : [width, height];
  return {
    ...{ widthPx: width, heightPx: height, channels: colors, samples: data, from: 'developed' },
    codes: { zero: [0, 0, 0], white: [65535, 65535, 65535], clip: 65520, black: 0, blackMean: 16 },
    ...{ fullWidthPx, fullHeightPx },
    blackDoubt: 0,
    says: [
      isHalf
        ? 'Its sensor is no plain 2 × 2 mosaic: a linear picture of half the size was developed from it, and noise below black is cut off.'
        : 'It holds no mosaic of cells: its linear picture was read, and noise below black is cut off.',
    ],
  };
}

/** The decoder gives its size upright, and the picture as stored. */
function fullSize({ metadata }: RawFile, width: number, height: number): [number, number] {
  const [long, short] = [
    Math.max(metadata.width, metadata.height),
    Math.min(metadata.width, metadata.height),
  ];
  return width >= height ? [long, short] : [short, long];
}
