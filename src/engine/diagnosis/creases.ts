import type { CellGrid } from '../grid/cell-grid.ts';
import { standsInPlateaux } from '../grid/refine-by-blocks.ts';
import { cellCentre } from '../numeric/cell-centre.ts';
import { quantile } from '../numeric/quantile.ts';
import type { Finding } from '../reading.ts';
import { allLuminance } from './all-luminance.ts';
import { confidenceOf } from './confidence.ts';
import { connectedCells } from './connected-cells.ts';
import type { DiagnosisInput } from './diagnosis-input.ts';
import { stopsInWords } from './figures-in-words.ts';
import { filledGaps } from './filled-gaps.ts';
import { leftByRounding } from './left-by-rounding.ts';
import { lineCells } from './line-cells.ts';
import { noisierCells } from './noisier-cells.ts';
import { fallWithout } from './spread-without.ts';

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
/** A crease has more than this many cells in a row; and it is no thing that stands in the light. */
const SHORTEST_CELLS = 5;
const DEEPEST_EV = 0.5;
const FEWEST_CELLS_A_SIDE = 12;
/** More of the frame than this is no line any more but a texture or a subject. */
const LARGEST_SHARE = 0.15;

/** Wrinkles of a sheet, paper or cloth: narrow lines, darker or brighter than what lies beside them, at any angle. */
export function creases({ grid }: Pick<DiagnosisInput, 'grid'>): Finding | null {
  const { columns, rows } = grid;
  if (Math.min(columns, rows) < FEWEST_CELLS_A_SIDE) return null;
  const light = allLuminance(grid);
  const stops = filledGaps(light.map(Math.log2), columns, rows);
  if (stops === null) return null;
  const lines = lineCells(stops, columns, rows);
  const least = Math.max(LEAST_DEPTH_EV, leftByRounding(grid, ROUNDING_STEPS));
  const floor = noisierCells(grid).map((factor) => Math.max(least, TIMES_CHANCE * factor * lines.chance));
  const narrow = narrowLines(grid);
  const strength = lines.height.map((ev, cell) =>
    Math.max(Math.abs(ev) / floor[cell]! || 0, narrow?.[cell] || 0),
  );
  // a line's fainter cells hold it together, its clear ones make it sure
  const marked = Uint8Array.from(strength, (value) => (value > 0.5 ? 1 : 0));
  const clear = (cells: readonly number[]) => cells.filter((cell) => strength[cell]! > 1);
  const found = connectedCells(marked, columns, rows).filter((cells) => isLine(clear(cells), columns));
  if (found.flatMap(clear).length > LARGEST_SHARE * marked.length) return null;
  if (found.length === 0) return null;
  const partEv = new Float64Array(light.length);
  for (const cell of found.flat()) partEv[cell] = lines.height[cell]! || 0;
  const depths = found.map((cells) => middle(deepestHalf(cells.map((cell) => partEv[cell]!))));
  if (depths.some((ev) => Math.abs(ev) > DEEPEST_EV)) return null;
  const sure = found.map((cells) => middle(clear(cells).map((cell) => strength[cell]!)));
  const clearest = sure.indexOf(Math.max(...sure));
  const deepest = depths.reduce((deep, ev) => (Math.abs(ev) > Math.abs(deep) ? ev : deep), 0);
  const at = middleCell(found[clearest]!, columns);
  return {
    kind: 'creases',
    confidence: confidenceOf(sure[clearest]!, 1),
    ev: fallWithout(grid, partEv),
    mired: null,
    at: cellCentre(grid, at),
    says: sentence(found.length > 1, deepest, least),
  };
}

function sentence(several: boolean, deepestEv: number, floorEv: number): string {
  const depth = `${stopsInWords(deepestEv)} ${deepestEv < 0 ? 'darker' : 'brighter'} than the background beside`;
  const told = Math.abs(deepestEv) > floorEv;
  const what = several
    ? `Creases show in the background${told ? `, the deepest about ${depth} it` : ', narrow ones'}`
    : `A crease shows in the background${told ? `, about ${depth} it` : ', a narrow one'}`;
  return `${what}: smooth it, or set it farther back out of focus.`;
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

/** Half of the values, those furthest from 0. */
function deepestHalf(values: number[]): number[] {
  return values.sort((a, b) => Math.abs(b) - Math.abs(a)).slice(0, Math.ceil(values.length / 2));
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
  // creases that meet make no bar, but stay thin: few cells for their length
  return along >= SHORTEST_CELLS && n <= 4 * along;
}

function middle(values: number[]): number {
  return values.sort((a, b) => a - b)[values.length >> 1]!;
}

/** The cell of a line nearest to the mean of them all. */
function middleCell(cells: readonly number[], columns: number): number {
  const x = cells.reduce((sum, cell) => sum + (cell % columns), 0) / cells.length;
  const y = cells.reduce((sum, cell) => sum + Math.floor(cell / columns), 0) / cells.length;
  const off = (cell: number) => Math.hypot((cell % columns) - x, Math.floor(cell / columns) - y);
  return cells.reduce((near, cell) => (off(cell) < off(near) ? cell : near));
}
