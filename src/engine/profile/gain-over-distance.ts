import { rgbToXyzMatrix } from '../colour/rgb-to-xyz-matrix.ts';
import type { Profile } from './profile.ts';

/** Directions that are looked in; the opposite ones are the same. */
const DIRECTIONS = 8;

/**
 * The largest difference in stops of luminance between the gains at two places of the frame that lie so far apart: by
 * so much what a glass shows of the background from beside it comes out wrong, when its own place's gain is applied.
 */
export function gainDifferenceEv(profile: Profile, frameWidths: number): number {
  const { lattice, madeFrom } = profile;
  const { columns, rows } = lattice;
  const gain = luminanceGains(profile);
  const across = frameWidths * (columns - 1);
  const down = frameWidths * (madeFrom.widthPx / madeFrom.heightPx) * (rows - 1);
  let most = 0;
  for (let direction = 0; direction < DIRECTIONS; direction++) {
    const angle = (direction / DIRECTIONS) * Math.PI;
    const [dx, dy] = [across * Math.cos(angle), down * Math.sin(angle)];
    for (let row = 0; row < rows; row++) {
      for (let column = 0; column < columns; column++) {
        const [x, y] = [column + dx, row + dy];
        if (x < 0 || y < 0 || x > columns - 1 || y > rows - 1) continue;
        most = Math.max(most, Math.abs(between(gain, columns, rows, x, y) - gain[row * columns + column]!));
      }
    }
  }
  return most;
}

function luminanceGains({ lattice, colourSpace }: Profile): Float64Array {
  const m = 'primaries' in colourSpace ? rgbToXyzMatrix(colourSpace.primaries, colourSpace.white) : null;
  const weights = m ? [m[3], m[4], m[5]] : [0, 1, 0]; // of a camera's own colours, green is nearest to it
  return Float64Array.from(lattice.green, (green, at) =>
    Math.log2(
      weights[0]! * 2 ** lattice.red[at]! + weights[1]! * 2 ** green + weights[2]! * 2 ** lattice.blue[at]!,
    ),
  );
}

function between(gain: Float64Array, columns: number, rows: number, x: number, y: number): number {
  const left = Math.min(Math.floor(x), Math.max(columns - 2, 0));
  const top = Math.min(Math.floor(y), Math.max(rows - 2, 0));
  const [u, v] = [x - left, y - top];
  const at = (column: number, row: number) =>
    gain[Math.min(row, rows - 1) * columns + Math.min(column, columns - 1)]!;
  const above = (1 - u) * at(left, top) + u * at(left + 1, top);
  return (1 - v) * above + v * ((1 - u) * at(left, top + 1) + u * at(left + 1, top + 1));
}
