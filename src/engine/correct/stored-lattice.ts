import { orientationTurnsSideways } from '../grid/upright-rectangle.ts';
import type { GainLattice } from '../profile/profile.ts';

/**
 * A lattice over the upright frame as it lies over the frame as stored, so that gains run along stored rows.
 * Orientation as in Exif, tag 274: where the stored row 0 and column 0 lie as seen.
 */
export function storedLattice(lattice: GainLattice, orientation: number): GainLattice {
  const sideways = orientationTurnsSideways(orientation);
  const columns = sideways ? lattice.rows : lattice.columns;
  const rows = sideways ? lattice.columns : lattice.rows;
  const fromBottom = [3, 4, 7, 8].includes(orientation);
  const fromRight = [2, 3, 6, 7].includes(orientation);
  const turned = (upright: readonly number[]) => {
    const stored = new Array<number>(upright.length);
    for (let row = 0, at = 0; row < rows; row++) {
      for (let column = 0; column < columns; column++) {
        const [x, y] = sideways ? [row, column] : [column, row];
        const seenX = fromRight ? lattice.columns - 1 - x : x;
        const seenY = fromBottom ? lattice.rows - 1 - y : y;
        stored[at++] = upright[seenY * lattice.columns + seenX]!;
      }
    }
    return stored;
  };
  return {
    columns,
    rows,
    red: turned(lattice.red),
    green: turned(lattice.green),
    blue: turned(lattice.blue),
  };
}
