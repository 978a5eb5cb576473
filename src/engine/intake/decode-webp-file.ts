import type { FileDecoder } from './file-decoder.ts';
import { checkPictureSize } from './picture-size.ts';
import { platformPicture, platformPictureSays } from './platform-picture.ts';
import { NO_EXIF, readExif } from './read-exif.ts';
import { readWebpChunks } from './webp-chunks.ts';

/**
 * Decodes a WebP: its chunks here, pixels by the platform. The result is 8-bit RGBA.
 *
 * @throws {@link EngineError} as `decodeImage`.
 */
export const decodeWebpFile: FileDecoder = async (bytes, platform, onProgress) => {
  const { widthPx, heightPx, bare, isLossy, frames, ...notes } = readWebpChunks(bytes);
  checkPictureSize(widthPx, heightPx);
  onProgress?.(0);
  const size = { name: 'WebP', widthPx, heightPx };
  const { samples, isOpaque } = await platformPicture(bare, 'image/webp', size, platform);
  onProgress?.(1);
  const exif = notes.exif ? readExif(notes.exif) : NO_EXIF;
  return {
    format: 'webp',
    widthPx,
    heightPx,
    channels: 4,
    bitsPerSample: 8,
    samples,
    orientation: exif.orientation,
    iccProfile: notes.iccProfile,
    gamma: null,
    exifColourSpace: exif.colourSpace,
    exposure: exif.exposure,
    exif: notes.exif,
    xmp: notes.xmp,
    isOpaque,
    isLossy,
    jpegDcSteps: null,
    readingSays: platformPictureSays({ isOpaque, isLossy, bits: 8, frames }),
  };
};
