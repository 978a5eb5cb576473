import { type FramePoint, type FrameRectangle, WHOLE_FRAME } from '../../engine/reading.ts';

/**
 * Where a spot lies in the part that was read, as one says it: "the centre", "just above centre", "the top left
 * corner". Of a narrow part of the frame one end may else be called by the other's name.
 */
export function placeWords({ x, y }: FramePoint, region: FrameRectangle = WHOLE_FRAME): string {
  const across = (x - region.left) / (region.right - region.left) - 0.5;
  const down = (y - region.top) / (region.bottom - region.top) - 0.5;
  if (Math.abs(across) <= 0.06 && Math.abs(down) <= 0.06) return 'the centre';
  const side = across < 0 ? 'left' : 'right';
  const height = down < 0 ? 'top' : 'bottom';
  const farAcross = Math.abs(across) > 0.33;
  const farDown = Math.abs(down) > 0.33;
  if (farAcross && farDown) return `the ${height} ${side} corner`;
  if (farAcross) return `the ${side} edge`;
  if (farDown) return `the ${height} edge`;
  const vertical = down < 0 ? 'above' : 'below';
  if (Math.abs(across) <= 0.06) return `${near(down)}${vertical} centre`;
  if (Math.abs(down) <= 0.06) return `${near(across)}${side} of centre`;
  return `${vertical} centre to the ${side}`;
}

/** "at the left edge", "in the top left corner", "just above centre". */
export function atPlaceWords(at: FramePoint, region: FrameRectangle = WHOLE_FRAME): string {
  const place = placeWords(at, region);
  if (place.endsWith('corner')) return `in ${place}`;
  return place.startsWith('the ') ? `at ${place}` : place;
}

function near(distance: number): string {
  return Math.abs(distance) <= 0.15 ? 'just ' : '';
}

/** A direction on the frame in degrees clockwise from "to the right", in eight words. */
export function directionWords(angleDeg: number): string {
  const words = ['right', 'down right', 'down', 'down left', 'left', 'up left', 'up', 'up right'];
  return words[((Math.round(angleDeg / 45) % 8) + 8) % 8]!;
}
