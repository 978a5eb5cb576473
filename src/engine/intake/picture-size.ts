import { EngineError } from '../engine-error.ts';

/** Above every camera on sale, and still within what one tab can hold. */
export const LARGEST_PICTURE_PIXELS = 200_000_000;
/** Two of the smallest cells that the grid may have, so that a falloff can be told at all. */
export const SMALLEST_SIDE_PX = 16;

/**
 * Refuses a picture by the size its header claims, before anything is allocated for it.
 *
 * @throws {@link EngineError} `unreadable-file` for a side of 0, `too-large`, `too-small`.
 */
export function checkPictureSize(widthPx: number, heightPx: number): void {
  const detail = { widthPx, heightPx };
  if (!(widthPx > 0 && heightPx > 0))
    throw new EngineError(
      'unreadable-file',
      `The file claims a picture of ${widthPx} × ${heightPx} pixels: its header is damaged. Copy it from the card again.`,
      detail,
    );
  if (widthPx * heightPx > LARGEST_PICTURE_PIXELS)
    throw new EngineError(
      'too-large',
      `The file claims ${widthPx} × ${heightPx} pixels (${Math.round((widthPx * heightPx) / 1e6)} megapixels); ` +
        `at most ${LARGEST_PICTURE_PIXELS / 1e6} are read. Export it smaller.`,
      detail,
    );
  if (Math.min(widthPx, heightPx) < SMALLEST_SIDE_PX)
    throw new EngineError(
      'too-small',
      `The picture has ${widthPx} × ${heightPx} pixels; at least ${SMALLEST_SIDE_PX} a side are needed to see a falloff. ` +
        'Use the frame as the camera wrote it.',
      detail,
    );
}
