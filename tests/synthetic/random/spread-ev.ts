import { LUMINANCE } from '../studio/colour-shift.ts';
import { photographSet } from '../studio/photograph-set.ts';
import type { StudioSet } from '../studio/studio-set.ts';

const [COLUMNS, ROWS] = [48, 32];

/**
 * Stops between the brightest and the darkest of the luminance that a set shows at the centres of 48 × 32 cells of
 * the frame. Creases, weave and dust are finer than a cell and left out.
 */
export function spreadEv({ texture, ...set }: StudioSet): number {
  const { field } = photographSet({ ...set, exposure: { factor: 1 } });
  let [least, most] = [Number.POSITIVE_INFINITY, 0];
  for (let row = 0; row < ROWS; row++)
    for (let column = 0; column < COLUMNS; column++) {
      const [red, green, blue] = field((column + 0.5) / COLUMNS, (row + 0.5) / ROWS);
      const light = LUMINANCE[0] * red + LUMINANCE[1] * green + LUMINANCE[2] * blue;
      if (light < least) least = light;
      if (light > most) most = light;
    }
  return Math.log2(most / least);
}
