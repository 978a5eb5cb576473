import type { CellGrid } from '../grid/cell-grid.ts';
import { oncePerGrid } from '../grid/once-per-grid.ts';
import { standsInPlateaux } from '../grid/refine-by-blocks.ts';
import { quantile } from '../numeric/quantile.ts';
import { allLuminance } from './all-luminance.ts';
import { connectedCells } from './connected-cells.ts';
import { filledGaps } from './filled-gaps.ts';
import { withoutFlicker } from './flicker-wave.ts';
import { leftByRounding } from './left-by-rounding.ts';
import { lineCells } from './line-cells.ts';
import { noisierCells } from './noisier-cells.ts';

/** A line must stand out by so many deviations of single cells: the middle of seven reaches 3.2 by chance… */
const TIMES_CHANCE = 4;
/** …and by this many stops; less shows in no print. Own allowance. */
const LEAST_DEPTH_EV = 0.008;
/** Rounding that no noise dithers draws lines where one code ends; they are so many of its steps at most. */
const ROUNDING_STEPS = { plain: 0.8, jpeg: 1.4 };
/** …or by this share of its pixels, set aside as specks, where it is too narrow to move the cells. */
const LEAST_SPECK_SHARE = 0.05;
/** In cells of fewer pixels noise alone has as many set aside. */
const FEWEST_PIXELS = 150;
/** Noise has about this share of pixels set aside in the noisiest cells. */
const NOISE_SPECK_SHARE = 0.03;
/** A crease has more than this many cells in a row. */
const SHORTEST_CELLS = 5;
const FEWEST_CELLS_A_SIDE = 12;
/** More of the frame than this is no line any more but a texture or a subject. */
const LARGEST_SHARE = 0.15;

/** Creases that meet make no bar, but stay thin: few cells for their length, or few with cells on all sides. */
const CELLS_A_LENGTH = 4;
const MOST_CELLS_A_LENGTH = 12;
const INNER_SHARE = 0.1;

/** Lines that stand out of a grid's cells. */
export interface CreaseLines {
  /** Connected cells of each line, fainter ones among them. */
  readonly lines: readonly (readonly number[])[];
  /** By how much each cell stands out, in stops, and as a multiple of what chance and rounding do. */
  readonly height: Float64Array;
  readonly strength: Float64Array;
  /** What chance and rounding reach at least, in stops. */
  readonly leastEv: number;
}

/** The lines that wrinkles draw in the cells, at any angle; `null` where there are none. */
export const creaseLines = oncePerGrid((grid): CreaseLines | null => {
  const { columns, rows } = grid;
  if (Math.min(columns, rows) < FEWEST_CELLS_A_SIDE) return null;
  const still = withoutFlicker(allLuminance(grid).map(Math.log2), grid);
  const stops = filledGaps(still, columns, rows);
  if (stops === null) return null;
  const { height, chance } = lineCells(stops, columns, rows);
  const leastEv = Math.max(LEAST_DEPTH_EV, leftByRounding(grid, ROUNDING_STEPS));
  const floor = noisierCells(grid).map((factor) => Math.max(leastEv, TIMES_CHANCE * factor * chance));
  const narrow = narrowLines(grid);
  const strength = height.map((ev, cell) => Math.max(Math.abs(ev) / floor[cell]! || 0, narrow?.[cell] || 0));
  // a line's fainter cells hold it together, its clear ones make it sure
  const marked = Uint8Array.from(strength, (value) => (value > 0.5 ? 1 : 0));
  const lines = connectedCells(marked, columns, rows).filter((cells) =>
    isLine(clear(cells, strength), columns),
  );
  const clearCells = lines.reduce((sum, cells) => sum + clear(cells, strength).length, 0);
  if (lines.length === 0 || clearCells > LARGEST_SHARE * marked.length) return null;
  return { lines, height, strength, leastEv };
});

/** The cells of a line that stand out by more than chance. */
export const clear = (cells: readonly number[], strength: Float64Array) =>
  cells.filter((cell) => strength[cell]! > 1);

/** 1 for every cell that a crease runs through or that touches one. */
export function creasedCells(grid: CellGrid): Uint8Array {
  const { columns, rows } = grid;
  const cells = new Uint8Array(columns * rows);
  for (const cell of creaseLines(grid)?.lines.flat() ?? []) {
    const [column, row] = [cell % columns, Math.floor(cell / columns)];
    for (let r = Math.max(0, row - 1); r <= Math.min(rows - 1, row + 1); r++)
      for (let c = Math.max(0, column - 1); c <= Math.min(columns - 1, column + 1); c++)
        cells[r * columns + c] = 1;
  }
  return cells;
}

/** Lines among the pixels set aside as specks, against what noise sets aside; `null` where there are too few. */
function narrowLines(grid: CellGrid): Float64Array | null {
  if (standsInPlateaux(grid)) return null; // where its plateaux end, a JPEG has pixels set aside without a crease
  const { columns, rows, speckShare, pixels } = grid;
  if (quantile(pixels, 0.5) < FEWEST_PIXELS) return null;
  const least = LEAST_SPECK_SHARE + 3 * Math.sqrt(NOISE_SPECK_SHARE / quantile(pixels, 0.5));
  const over = speckShare.reduce((sum, share) => sum + (share > least ? 1 : 0), 0);
  if (over < SHORTEST_CELLS) return null;
  const { height, chance } = lineCells(speckShare, columns, rows);
  const floor = Math.max(least, TIMES_CHANCE * chance);
  return height.map((share) => share / floor);
}

/** Whether connected cells make a line: long enough, and several times as long as wide. */
function isLine(cells: readonly number[], columns: number): boolean {
  const n = cells.length;
  if (n < SHORTEST_CELLS) return false;
  let [sx, sy, sxx, sxy, syy] = [0, 0, 0, 0, 0];
  for (const cell of cells) {
    const [x, y] = [cell % columns, Math.floor(cell / columns)];
    sx += x;
    sy += y;
    sxx += x * x;
    sxy += x * y;
    syy += y * y;
  }
  const [xx, xy, yy] = [sxx / n - (sx / n) ** 2, sxy / n - (sx / n) * (sy / n), syy / n - (sy / n) ** 2];
  const spread = Math.hypot((xx - yy) / 2, xy);
  const along = Math.sqrt(12 * ((xx + yy) / 2 + spread)); // length of an even bar of that variance
  if (along < SHORTEST_CELLS || n > MOST_CELLS_A_LENGTH * along) return false;
  return n <= CELLS_A_LENGTH * along || innerShare(cells, columns) < INNER_SHARE;
}

/** Share of the cells whose eight neighbours are all among them. */
function innerShare(cells: readonly number[], columns: number): number {
  const all = new Set(cells);
  const around = [-1, 0, 1].flatMap((down) => [-1, 0, 1].map((right) => down * columns + right));
  const inner = cells.filter((cell) => around.every((offset) => all.has(cell + offset)));
  return inner.length / cells.length;
}
