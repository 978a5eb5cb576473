import { decodeRawFile } from './decode-raw-file.ts';
import { divideByAlpha } from './divide-by-alpha.ts';
import type { FileDecoder } from './file-decoder.ts';
import { readExif } from './read-exif.ts';
import { readTiffPixels } from './read-tiff-pixels.ts';
import type { FloatLosses } from './tiff-codes.ts';
import { readTiffHeader, type TiffHeader } from './tiff-header.ts';
import { tiffInPlace } from './tiff-in-place.ts';
import { firstTiffPage } from './tiff-pages.ts';
import { tiffSegments } from './tiff-segments.ts';

const TAG = { orientation: 274, xmp: 700, iccProfile: 34675 } as const;

/**
 * Decodes the first full-size picture of a TIFF: grey, RGB or palette, whole numbers of up to 16 bits or floating point
 * of 16 or 32, in strips or tiles, its channels together or apart. A camera's raw file laid out as a TIFF is read as raw.
 *
 * @throws {@link EngineError} as `decodeImage`.
 */
export const decodeTiffFile: FileDecoder = async (bytes, platform, onProgress, wishes) => {
  const page = firstTiffPage(bytes);
  if (!page) return decodeRawFile(bytes, platform, onProgress, wishes);
  const { directory, isFirst, pictures } = page;
  const header = readTiffHeader(directory, bytes[0] === 0x49);
  const segments = tiffSegments(directory, header, bytes.length);
  const inPlace = tiffInPlace(bytes, header, segments);
  const read = inPlace ?? (await readTiffPixels(bytes, header, segments, platform, onProgress));
  const { channels, bitsPerSample, samples, losses } = read;
  const wasDivided = header.alpha === 'associated' && divideByAlpha(samples, channels, bitsPerSample);
  const exif = readExif(bytes);
  const orientation = isFirst ? exif.orientation : directory.number(TAG.orientation);
  const iccProfile = directory.bytes(TAG.iccProfile);
  const isFloat = header.isFloat;
  return {
    format: 'tiff',
    widthPx: header.widthPx,
    heightPx: header.heightPx,
    channels,
    bitsPerSample,
    samples,
    orientation: orientation && orientation >= 1 && orientation <= 8 ? orientation : 1,
    iccProfile: iccProfile?.slice() ?? null,
    gamma: isFloat && !iccProfile && exif.colourSpace !== 1 ? 1 : null,
    exifColourSpace: exif.colourSpace,
    exposure: exif.exposure,
    exif: bytes,
    xmp: directory.bytes(TAG.xmp)?.slice() ?? null,
    jpegDcSteps: null,
    isFloat,
    readingSays: sentences(header, pictures, wasDivided, losses, samples.length),
  };
};

function sentences(
  header: TiffHeader,
  pictures: number,
  wasDivided: boolean,
  losses: FloatLosses,
  samples: number,
): string[] {
  const { storedChannels, colour, alpha, isFloat, depth } = header;
  const aside = storedChannels - (colour === 'rgb' ? 3 : 1) - (alpha === 'none' ? 0 : 1);
  const share = (count: number) => `${Number(((100 * count) / samples).toPrecision(2))} %`;
  return [
    ...(pictures > 1 ? [`The file holds ${pictures} pictures; the first is read.`] : []),
    ...(aside > 0 ? [`${aside} further ${aside === 1 ? 'channel is' : 'channels are'} left aside.`] : []),
    ...(wasDivided ? ['Its colours were stored multiplied by alpha; that is undone.'] : []),
    ...(isFloat ? [`Its ${depth}-bit floating point from 0 to 1 is taken to 16 bits.`] : []),
    ...(losses.above > 0
      ? [`${share(losses.above)} of its values are above 1 and count as clipped white.`]
      : []),
    ...(losses.below > 0 ? [`${share(losses.below)} are below 0 or no numbers and count as black.`] : []),
  ];
}
