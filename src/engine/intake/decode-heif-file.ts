import { areUnspecified, refuseCodePoints } from './code-points.ts';
import type { FileDecoder } from './file-decoder.ts';
import { readHeifFacts } from './heif-facts.ts';
import { checkPictureSize } from './picture-size.ts';
import type { DecodedType } from './platform.ts';
import { platformPicture, platformPictureSays } from './platform-picture.ts';
import { NO_EXIF, readExif } from './read-exif.ts';

/**
 * Decodes an AVIF or HEIC: its boxes here, pixels by the platform where it can. The result is 8-bit RGBA; an embedded
 * profile goes before stated code points.
 */
function decoderOf(format: 'avif' | 'heic', name: string, type: DecodedType): FileDecoder {
  return async (bytes, platform, onProgress) => {
    const facts = readHeifFacts(bytes, name);
    const { widthPx, heightPx, iccProfile, bits } = facts;
    checkPictureSize(widthPx, heightPx);
    const stated =
      iccProfile || !facts.codePoints || areUnspecified(facts.codePoints) ? null : facts.codePoints;
    if (stated) refuseCodePoints(stated, name);
    const sRgbStated = stated?.primaries === 1 && stated.transfer === 13;
    onProgress?.(0);
    const { samples, isOpaque } = await platformPicture(
      facts.bare,
      type,
      { name, widthPx, heightPx },
      platform,
    );
    onProgress?.(1);
    const exif = facts.exif ? readExif(facts.exif) : NO_EXIF;
    const frames = String.fromCharCode(...bytes.subarray(8, 12)) === 'avis' ? 'several' : 1;
    return {
      format,
      widthPx,
      heightPx,
      channels: 4,
      bitsPerSample: 8,
      samples,
      orientation: facts.orientation,
      iccProfile,
      gamma: null,
      codePoints: sRgbStated ? null : stated,
      sRgbStated,
      exifColourSpace: exif.colourSpace,
      exposure: exif.exposure,
      exif: facts.exif,
      xmp: facts.xmp,
      isOpaque,
      isLossy: true,
      jpegDcSteps: null,
      readingSays: platformPictureSays({ isOpaque, isLossy: true, bits, frames }),
    };
  };
}

/** @throws {@link EngineError} as `decodeImage`. */
export const decodeAvifFile = decoderOf('avif', 'AVIF', 'image/avif');

/** @throws {@link EngineError} as `decodeImage`. */
export const decodeHeicFile = decoderOf('heic', 'HEIC', 'image/heic');
