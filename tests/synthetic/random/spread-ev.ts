import { LUMINANCE } from '../studio/colour-shift.ts';
import { photographSet } from '../studio/photograph-set.ts';
import type { StudioSet } from '../studio/studio-set.ts';

const [COLUMNS, ROWS] = [48, 32];

/**
 * Stops between the brightest and the darkest of the luminance that a set shows at the centres of 48 × 32 cells of
 * the frame, or of fewer. Creases, weave and dust are finer than a cell and left out.
 */
export function spreadEv({ texture, ...set }: StudioSet, columns = COLUMNS, rows = ROWS): number {
  const { field } = photographSet({ ...set, exposure: { factor: 1 } });
  let [least, most] = [Number.POSITIVE_INFINITY, 0];
  // where there are fewer, the outermost lie where those of 48 × 32 do
  const at = (i: number, of: number, all: number) => (0.5 + (i / (of - 1)) * (all - 1)) / all;
  for (let row = 0; row < rows; row++)
    for (let column = 0; column < columns; column++) {
      const [red, green, blue] = field(at(column, columns, COLUMNS), at(row, rows, ROWS));
      const light = LUMINANCE[0] * red + LUMINANCE[1] * green + LUMINANCE[2] * blue;
      if (light < least) least = light;
      if (light > most) most = light;
    }
  return Math.log2(most / least);
}
