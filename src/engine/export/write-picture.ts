import type { CorrectedPicture } from '../correct/corrected-picture.ts';
import { EngineError } from '../engine-error.ts';
import type { Platform } from '../intake/platform.ts';
import { writeJpeg } from './write-jpeg.ts';
import { type StatedColour, writePng } from './write-png.ts';
import { writeTiff } from './write-tiff.ts';

/** The formats that corrected frames are written in. */
export const WRITTEN_FORMATS = ['tiff', 'png', 'jpeg'] as const;
export type WrittenFormat = (typeof WRITTEN_FORMATS)[number];

export interface WrittenFile {
  /** The file in pieces, in order: a Blob takes them as they are, without another copy of the picture. */
  readonly parts: readonly Uint8Array[];
  readonly mime: string;
  /** Without a dot. */
  readonly extension: 'tif' | 'png' | 'jpg';
}

/**
 * Writes a picture as a file of a format.
 *
 * @throws {@link EngineError} `cannot-write` where the platform can't encode a JPEG of this picture.
 */
export async function writePicture(
  picture: CorrectedPicture,
  format: WrittenFormat,
  platform: Platform,
  {
    stated,
    onProgress,
  }: { readonly stated?: StatedColour; readonly onProgress?: (fraction: number) => void } = {},
): Promise<WrittenFile> {
  if (format === 'tiff') return { parts: writeTiff(picture), mime: 'image/tiff', extension: 'tif' };
  if (format === 'png') {
    const parts = await writePng(picture, platform, {
      ...(stated && { stated }),
      ...(onProgress && { onProgress }),
    });
    return { parts, mime: 'image/png', extension: 'png' };
  }
  const parts = await writeJpeg(picture, platform).catch((cause: unknown) => {
    throw new EngineError(
      'cannot-write',
      `A JPEG of ${picture.widthPx} × ${picture.heightPx} pixels can’t be encoded here (${cause instanceof Error ? cause.message : cause}). ` +
        'Write it as TIFF or PNG.',
      { widthPx: picture.widthPx, heightPx: picture.heightPx },
      { cause },
    );
  });
  return { parts, mime: 'image/jpeg', extension: 'jpg' };
}
