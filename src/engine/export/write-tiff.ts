import type { CorrectedPicture } from '../correct/corrected-picture.ts';
import { exifTree, littleEndianTree, withNote } from './exif-tree.ts';
import {
  BYTE,
  bytesField,
  longField,
  rationalField,
  shortField,
  type TiffField,
  textField,
  UNDEFINED,
} from './tiff-field.ts';
import { tiffBlockOf } from './tiff-layout.ts';
import { xmpToWrite } from './xmp-to-write.ts';

/** Rows are put into strips of about this size, for readers that hold one strip at a time. */
const STRIP_BYTES = 1 << 20;

const TAG = {
  imageWidth: 256,
  imageLength: 257,
  bitsPerSample: 258,
  compression: 259,
  photometric: 262,
  imageDescription: 270,
  stripOffsets: 273,
  orientation: 274,
  samplesPerPixel: 277,
  rowsPerStrip: 278,
  stripByteCounts: 279,
  xResolution: 282,
  yResolution: 283,
  planarConfiguration: 284,
  resolutionUnit: 296,
  extraSamples: 338,
  xmp: 700,
  iccProfile: 34675,
} as const;

/**
 * A TIFF, uncompressed and little-endian, as the pieces of a file in their order: its directories, then the samples
 * themselves, which are not copied (typed arrays are little-endian wherever browsers run).
 *
 * Exif and GPS go into directories of their own, what the source's first directory says about the picture into the
 * TIFF's. A maker's note stays at its old offset where the source was little-endian too; see {@link littleEndianTree}.
 * Source: TIFF 6.0, sections 2 to 6 and 18; ICC.1:2010, annex B.3 (tag 34675).
 */
export function writeTiff(
  picture: CorrectedPicture,
  { description }: { readonly description?: string } = {},
): Uint8Array[] {
  const { widthPx, heightPx, channels, bitsPerSample, samples } = picture;
  const rowBytes = widthPx * channels * (bitsPerSample / 8);
  const rowsPerStrip = Math.min(heightPx, Math.max(1, Math.floor(STRIP_BYTES / rowBytes)));
  const strips = Math.ceil(heightPx / rowsPerStrip);
  const stripBytes = Array.from(
    { length: strips },
    (_, strip) => Math.min(rowsPerStrip, heightPx - strip * rowsPerStrip) * rowBytes,
  );
  const exif = picture.exif && exifTree(picture.exif);
  const carried = exif ? littleEndianTree(exif) : null;
  const note = carried?.makerNote ?? null;
  const headWithPixelsAt = (at: number) => {
    const stripAt = stripBytes.map((_, strip) => at + strip * stripBytes[0]!);
    const layout = [
      longField(TAG.stripOffsets, ...stripAt),
      longField(TAG.rowsPerStrip, rowsPerStrip),
      longField(TAG.stripByteCounts, ...stripBytes),
    ];
    const own = [...layout, ...fieldsOf(picture, description)];
    const fields = [...own, ...besideOwn(own, carried?.main ?? [])];
    return tiffBlockOf({ fields, children: carried ? withNote(carried, note) : [] }, true, note);
  };
  // offsets take four bytes whatever they are, so that a first layout tells how long the second one is
  const pixelsAt = (headWithPixelsAt(0).length + 15) & ~15;
  const head = new Uint8Array(pixelsAt);
  head.set(headWithPixelsAt(pixelsAt));
  return [head, new Uint8Array(samples.buffer, samples.byteOffset, samples.byteLength)];
}

function fieldsOf(picture: CorrectedPicture, description: string | undefined): TiffField[] {
  const { widthPx, heightPx, channels, bitsPerSample, orientation, iccProfile } = picture;
  const hasAlpha = channels % 2 === 0;
  const xmp = xmpToWrite(picture);
  return [
    longField(TAG.imageWidth, widthPx),
    longField(TAG.imageLength, heightPx),
    shortField(TAG.bitsPerSample, ...Array<number>(channels).fill(bitsPerSample)),
    shortField(TAG.compression, 1),
    shortField(TAG.photometric, channels > 2 ? 2 : 1),
    shortField(TAG.orientation, orientation),
    shortField(TAG.samplesPerPixel, channels),
    shortField(TAG.planarConfiguration, 1),
    ...(hasAlpha ? [shortField(TAG.extraSamples, 2)] : []), // 2: colours are not multiplied by it
    ...(xmp ? [bytesField(TAG.xmp, BYTE, xmp)] : []),
    ...(iccProfile?.length ? [bytesField(TAG.iccProfile, UNDEFINED, iccProfile)] : []),
    ...(description === undefined ? [] : [textField(TAG.imageDescription, description)]),
  ];
}

/** What the source's first directory adds, and a resolution, which TIFF needs: a unit of 1 says that it is no length. */
function besideOwn(own: readonly TiffField[], carried: readonly TiffField[]): TiffField[] {
  const added = carried.filter(({ tag }) => !own.some((field) => field.tag === tag));
  const isThere = (tag: number) => added.some((field) => field.tag === tag);
  if (isThere(TAG.xResolution) && isThere(TAG.yResolution)) return added;
  return [
    ...added.filter(({ tag }) => !ABOUT_RESOLUTION.has(tag)),
    rationalField(TAG.xResolution, 1, 1),
    rationalField(TAG.yResolution, 1, 1),
    shortField(TAG.resolutionUnit, 1),
  ];
}

const ABOUT_RESOLUTION = new Set<number>([TAG.xResolution, TAG.yResolution, TAG.resolutionUnit]);
