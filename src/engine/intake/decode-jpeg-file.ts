import { EngineError } from '../engine-error.ts';
import type { FileDecoder } from './file-decoder.ts';
import { type JpegSegments, readJpegSegments } from './jpeg-segments.ts';
import { checkPictureSize } from './picture-size.ts';
import { NO_EXIF, readExif } from './read-exif.ts';

/**
 * Decodes a JPEG: segments here, pixels by the platform. The result is always 8-bit RGBA, also for a grey file.
 *
 * @throws {@link EngineError} as `decodeImage`.
 */
export const decodeJpegFile: FileDecoder = async (bytes, platform, onProgress) => {
  const segments = readJpegSegments(bytes);
  const { widthPx, heightPx } = segments;
  checkPictureSize(widthPx, heightPx);
  refuseRareKinds(segments);
  onProgress?.(0);
  const picture = await platform.decodePicture(bytes, 'image/jpeg').catch((cause: unknown) => {
    if (cause instanceof EngineError) throw cause; // the platform itself can't, and says why
    throw new EngineError('unreadable-file', DAMAGED, {}, { cause });
  });
  if (!picture) throw new EngineError('unreadable-file', DAMAGED);
  if (picture.widthPx !== widthPx || picture.heightPx !== heightPx)
    throw new EngineError(
      'unreadable-file',
      `The JPEG’s header says ${widthPx} × ${heightPx} pixels and its picture ${picture.widthPx} × ${picture.heightPx}: ` +
        'it is damaged. Copy it from the card again.',
    );
  onProgress?.(1);
  const exif = segments.exif ? readExif(segments.exif) : NO_EXIF;
  return {
    format: 'jpeg',
    widthPx,
    heightPx,
    channels: 4,
    bitsPerSample: 8,
    samples: picture.samples,
    orientation: exif.orientation,
    iccProfile: segments.iccProfile,
    gamma: null,
    exifColourSpace: exif.colourSpace,
    exposure: exif.exposure,
    exif: segments.exif,
    xmp: segments.xmp,
    hasIptc: segments.hasIptc,
    isGreyJpeg: segments.components === 1,
    jpegDcSteps: segments.dcSteps,
  };
};

const DAMAGED = 'The JPEG’s picture data is damaged and does not decode. Copy it from the card again.';

/** Refuses what a platform would refuse without a reason, or convert to RGB by a rule of its own. */
function refuseRareKinds({ components, bitsPerSample, frameMarker }: JpegSegments): void {
  if (components === 4)
    throw new EngineError(
      'unsupported-file',
      'The JPEG holds four inks (CMYK), made for a press; light is read from RGB. Export it as sRGB.',
      { components },
    );
  if (components !== 1 && components !== 3)
    throw new EngineError(
      'unsupported-file',
      `The JPEG has ${components} components; 1 (grey) or 3 (colour) were needed. Export it as sRGB.`,
      { components },
    );
  if (bitsPerSample !== 8 || frameMarker > 0xc2)
    throw new EngineError(
      'unsupported-file',
      `The JPEG is of a rare kind (${bitsPerSample} bits, coding process ${frameMarker - 0xc0}); 8 bits, baseline or ` +
        'progressive, were needed. Export it again as an ordinary JPEG or a 16-bit PNG.',
      { bitsPerSample },
    );
}
