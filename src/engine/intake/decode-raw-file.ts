import type { Vector3 } from '../numeric/matrix3.ts';
import { type BayerOrder, bayerOrder } from './bayer-order.ts';
import { binBayer } from './bin-bayer.ts';
import { blackByDeveloping } from './black-by-developing.ts';
import { blackOfChannels, type CellLevels, checkLevels, dngLevels } from './cell-levels.ts';
import { linearHalf, type RawPicture, wholePicture } from './develop-raw.ts';
import { type DngTags, readDngTags } from './dng-tags.ts';
import type { FileDecoder } from './file-decoder.ts';
import { maskedBlack } from './masked-margin.ts';
import { pictureInMosaic } from './picture-in-mosaic.ts';
import { checkPictureSize } from './picture-size.ts';
import { cameraOf, colourOf, exposureOf, orientationOf } from './raw-facts.ts';
import type { RawFile, RawMosaic } from './raw-file.ts';
import { rawNotRead, rawRefusal, rawTooLarge } from './raw-refusals.ts';
import { saturationLevels } from './saturation-level.ts';

/** The decoder has 2 GB for the file and all that it unpacks from it. */
const LARGEST_RAW_BYTES = 2 ** 30;

/** Shares of the work: opening, unpacking, taking cells together. */
const OPENED = 0.1;
const UNPACKED = 0.6;

/**
 * Reads a camera's raw file: cells of a Bayer sensor straight from the mosaic, anything else by the decoder's half-size
 * linear picture; where it is to be corrected, as a whole picture. Levels and colours come from a DNG's own tags, else from
 * what the decoder knows of the camera.
 *
 * @throws {@link EngineError} as `decodeImage`.
 */
export const decodeRawFile: FileDecoder = async (bytes, platform, onProgress, { rawAs = 'cells' } = {}) => {
  if (!platform.openRaw) throw rawNotRead();
  if (bytes.length > LARGEST_RAW_BYTES) throw rawTooLarge(bytes.length);
  const raw = await platform.openRaw(bytes).catch((error: unknown) => {
    throw rawRefusal(error, bytes);
  });
  try {
    const { metadata } = raw;
    checkPictureSize(metadata.width, metadata.height);
    onProgress?.(OPENED);
    const dng = readDngTags(bytes);
    const colour = colourOf(metadata, dng);
    const reading = rawAs === 'picture' ? wholePicture(raw, dng, colour) : readCells(raw, dng, onProgress);
    const read = await reading.catch((error: unknown) => {
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
        colour,
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
): Promise<RawPicture> {
  const foundOrder = bayerOrder(raw.metadata);
  const whole = foundOrder && (await raw.mosaic());
  if (!foundOrder || !whole) return await linearHalf(raw, dng);
  onProgress?.(UNPACKED);
  const { mosaic, order } = pictureInMosaic(whole, foundOrder, dng?.activeArea ?? null);
  const known = await levelsOf(raw, dng, mosaic, order);
  if (!known) return await linearHalf(raw, dng);
  const { levels, isPerChannel } = known;
  checkLevels(levels.black, levels.white[1]);
  const full = saturationLevels(mosaic, order, levels);
  const { widthPx, heightPx, samples, codes } = binBayer(mosaic, order, { ...levels, full }, (fraction) =>
    onProgress?.(UNPACKED + (1 - UNPACKED) * fraction),
  );
  const doubt = blackDoubt(mosaic, order, levels, isPerChannel);
  return {
    ...{ widthPx, heightPx, channels: 3, samples, codes, from: 'cells' },
    fullWidthPx: mosaic.width,
    fullHeightPx: mosaic.height,
    blackDoubt: doubt.share,
    says: [FOUR_CELLS, ...fullSays(full, levels.white), ...doubt.says],
  };
}

function fullSays(full: Vector3, white: Vector3): string[] {
  const low = full.findIndex((level, channel) => level < white[channel]!);
  if (low < 0) return [];
  return [
    `Cells are heaped up at ${full[low]} and above, below the ${white[low]} that the file gives as white: they are full there, and count as clipped.`,
  ];
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
  const { maximum } = raw.metadata.color_data;
  if (dng) return { levels: dngLevels(dng, mosaic, maximum), isPerChannel: true };
  const picture = await raw.developed({ halfSize: true, multipliers: null });
  const found = blackByDeveloping(mosaic, order, picture);
  if (found === null) return null;
  const white: CellLevels['white'] = [maximum, maximum, maximum];
  const taken = maximum - picture.maximum; // the black that all channels share
  const black = found === 'too-dark' ? (maskedBlack(mosaic) ?? [taken, taken, taken, taken]) : found;
  return { levels: { black, beyond: null, white }, isPerChannel: found !== 'too-dark' };
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
        `The sensor’s masked margin reads ${off.toFixed(1)} codes beside the black level that the file gives, out of ${Math.round(range)} to white.`,
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
