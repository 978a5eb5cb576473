import type { StoredImage } from './stored-image.ts';

/**
 * Channels that a picture itself has: what a platform decodes is handed out as red, green, blue and alpha whatever the
 * file holds.
 */
export function heldChannels({
  format,
  channels,
  isGreyJpeg,
  isOpaque,
}: Pick<StoredImage, 'format' | 'channels' | 'isGreyJpeg' | 'isOpaque'>): 1 | 2 | 3 | 4 {
  if (format === 'jpeg') return isGreyJpeg ? 1 : 3;
  return isOpaque && channels === 4 ? 3 : channels;
}
