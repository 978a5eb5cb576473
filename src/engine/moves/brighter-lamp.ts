import type { Gradient } from '../reading.ts';

/** A slope whose angle lies within half an eighth of an axis counts as along that axis alone. */
export const ALONG_AXIS = Math.sin(Math.PI / 8);

/** Of two lamps, one at each side, the one at the brighter side; `null` where the slope is not one across. */
export function brighterLamp({ angleDeg }: Gradient): 0 | 1 | null {
  if (angleDeg === null) return null;
  const right = Math.cos((angleDeg * Math.PI) / 180);
  if (Math.abs(right) <= ALONG_AXIS) return null;
  return right > 0 ? 1 : 0;
}
