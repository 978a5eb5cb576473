import type { Setup } from '../setup.ts';
import type { LitSet } from './lit-set.ts';

/** A room is taped, and a light's place found, to within so much. Own allowance. */
const TAPED = 1.15;

/**
 * Whether every light stands where a light can go: no farther to any side of the frame's middle than the room was
 * said to reach. What nobody entered bounds nothing.
 */
export function standsInRoom({ lights }: LitSet, { room, frameWidthMm }: Setup): boolean {
  if (frameWidthMm === null) return true;
  const fits = (widths: number, mm: number | null) => mm === null || widths * frameWidthMm <= TAPED * mm;
  return lights.every(
    ({ x, y, distance }) =>
      fits(-x, room.leftMm) &&
      fits(x, room.rightMm) &&
      fits(-y, room.upMm) &&
      fits(y, room.downMm) &&
      fits(distance, room.reachMm),
  );
}
