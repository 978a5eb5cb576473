import { type FrameRectangle, WHOLE_FRAME } from '../../engine/reading.ts';
import { handlePlace, type RegionHandle } from '../../plots/map-region.ts';
import { decimals } from './figures.ts';

/** "Left side", "Top right corner" of the part that is read. */
export function handleName({ across, down }: RegionHandle): string {
  const name = [down, across].filter((part) => part !== null).join(' ');
  return `${name.charAt(0).toUpperCase()}${name.slice(1)} ${across === null || down === null ? 'side' : 'corner'}`;
}

/** Where a handle stands: "12 % across", "12 % across, 8 % down". */
export function handlePlaceWords(handle: RegionHandle, region: FrameRectangle): string {
  const { x, y } = handlePlace(region, handle);
  const parts = [];
  if (handle.across !== null) parts.push(`${decimals(x * 100, 0)} % across`);
  if (handle.down !== null) parts.push(`${decimals(y * 100, 0)} % down`);
  return parts.join(', ');
}

/** What part of the frame was read, in a sentence; `null` where it is the whole of it. */
export function regionWords(region: FrameRectangle): string | null {
  if (isWholeFrame(region)) return null;
  const across = decimals((region.right - region.left) * 100, 0);
  const down = decimals((region.bottom - region.top) * 100, 0);
  return `Read inside the outline only: ${across} % of the frame’s width and ${down} % of its height.`;
}

/** What a figure is told of: "the frame", or "the part read" where that is not the whole of it. */
export function extentWords(region: FrameRectangle): string {
  return isWholeFrame(region) ? 'the frame' : 'the part read';
}

export function isWholeFrame({ left, top, right, bottom }: FrameRectangle): boolean {
  return (
    left === WHOLE_FRAME.left &&
    top === WHOLE_FRAME.top &&
    right === WHOLE_FRAME.right &&
    bottom === WHOLE_FRAME.bottom
  );
}
