import { quantile } from '../numeric/quantile.ts';

/** Directions that a line is looked for in, over half a turn. */
const DIRECTIONS = 8;
/** A line is followed over so many cells each way; most of them must show it. */
const ALONG_CELLS = 3;
/** The light beside a line is taken once, twice and three times this many cells off. */
const BESIDE_CELLS = 2;
const MAD_TO_SIGMA = 1.4826;
/** Every third cell tells the noise of all. */
const THINNED = 3;

/** How far each cell stands out of its sides as part of a line, in the map's unit; negative below them. */
export interface LineCells {
  readonly height: Float64Array;
  /** Standard deviation of single cells in the direction where it is largest: what noise and texture make. */
  readonly chance: number;
}

/**
 * Looks for narrow lines in a map of cells. Across a line a cell is held against the mean of both sides near by and
 * against what a parabola and a kink through three distances foretell: the smaller difference counts, where both
 * agree in sign and the sides differ by less than it; so a bend, a kink and a step are no lines. Along it the middle
 * one of seven counts, so that no spot makes a line. NaN where a cell or what it needs is NaN, and along the rim.
 */
export function lineCells(map: Float64Array, columns: number, rows: number): LineCells {
  const height = new Float64Array(map.length).fill(Number.NaN);
  let chance = 0;
  const seven = new Float64Array(2 * ALONG_CELLS + 1);
  for (let k = 0; k < DIRECTIONS; k++) {
    const angle = (Math.PI * k) / DIRECTIONS;
    const [right, down] = [Math.cos(angle), Math.sin(angle)];
    const points = standingOut(map, columns, rows, -down, right);
    const along = new Float64Array(map.length).fill(Number.NaN);
    for (let row = 0; row < rows; row++) {
      for (let column = 0; column < columns; column++) {
        let count = 0;
        for (let i = -ALONG_CELLS; i <= ALONG_CELLS; i++) {
          const c = column + Math.round(i * right);
          const r = row + Math.round(i * down);
          if (c < 0 || r < 0 || c >= columns || r >= rows) continue;
          const value = points[r * columns + c]!;
          if (!Number.isNaN(value)) seven[count++] = value;
        }
        if (count <= ALONG_CELLS) continue;
        const cell = row * columns + column;
        along[cell] = middleOf(seven, count);
        if (!(Math.abs(along[cell]!) <= Math.abs(height[cell]!))) height[cell] = along[cell]!;
      }
    }
    chance = Math.max(chance, cellNoise(map, columns, rows, -down, right));
  }
  return { height, chance };
}

/** Each cell against both sides of it along one direction. */
function standingOut(
  map: Float64Array,
  columns: number,
  rows: number,
  right: number,
  down: number,
): Float64Array {
  const result = new Float64Array(map.length).fill(Number.NaN);
  const [dx, dy] = [BESIDE_CELLS * right, BESIDE_CELLS * down];
  const sides = [1, -1, 2, -2, 3, -3].map((times) => offsetTo(times * dx, times * dy, columns));
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++) {
      const cell = row * columns + column;
      const value = (side: CellOffset) => {
        const c = column + side.right;
        const r = row + side.down;
        if (c < 0 || r < 0 || c > columns - 2 || r > rows - 2) return Number.NaN;
        const i = cell + side.cells;
        const { w00, w10, w01, w11 } = side;
        return w00 * map[i]! + w10 * map[i + 1]! + w01 * map[i + columns]! + w11 * map[i + columns + 1]!;
      };
      const one = value(sides[0]!);
      const other = value(sides[1]!);
      const near = (one + other) / 2;
      const plain = map[cell]! - near;
      if (Number.isNaN(plain)) continue;
      result[cell] = 0;
      if (!(Math.abs(one - other) < Math.abs(plain))) continue;
      const far = (value(sides[2]!) + value(sides[3]!)) / 2;
      const farther = (value(sides[4]!) + value(sides[5]!)) / 2;
      // weights 3, −3, 1 of the three distances leave nothing of 1, |x| and x²
      const bent = map[cell]! - (3 * near - 3 * far + farther);
      if (!(plain * bent > 0)) continue;
      const height = Math.min(Math.abs(plain), Math.abs(bent));
      if (Math.abs(one - other) < height) result[cell] = Math.sign(plain) * height;
    }
  }
  return result;
}

/** Robust standard deviation of single cells, from their differences to the mean of both sides along a direction. */
function cellNoise(map: Float64Array, columns: number, rows: number, right: number, down: number): number {
  const [dx, dy] = [Math.round(BESIDE_CELLS * right), Math.round(BESIDE_CELLS * down)];
  const off: number[] = [];
  for (let cell = 0; cell < map.length; cell += THINNED) {
    const column = cell % columns;
    const row = (cell - column) / columns;
    if (Math.min(column + dx, column - dx, row + dy, row - dy) < 0) continue;
    if (Math.max(column + dx, column - dx) >= columns || Math.max(row + dy, row - dy) >= rows) continue;
    const beside = dy * columns + dx;
    off.push(Math.abs(map[cell]! - (map[cell + beside]! + map[cell - beside]!) / 2));
  }
  return (MAD_TO_SIGMA * quantile(off, 0.5)) / Math.sqrt(1.5) || 0; // variance of a difference to a mean of two: 1.5
}

/** A place between cells, counted from a cell: the cell at its upper left, and the weights of the four around it. */
interface CellOffset {
  readonly right: number;
  readonly down: number;
  readonly cells: number;
  readonly w00: number;
  readonly w10: number;
  readonly w01: number;
  readonly w11: number;
}

function offsetTo(x: number, y: number, columns: number): CellOffset {
  const [right, down] = [Math.floor(x), Math.floor(y)];
  const [fx, fy] = [x - right, y - down];
  return {
    right,
    down,
    cells: down * columns + right,
    w00: (1 - fx) * (1 - fy),
    w10: fx * (1 - fy),
    w01: (1 - fx) * fy,
    w11: fx * fy,
  };
}

/** Middle one of the first `count` values, sorting them in place. */
function middleOf(values: Float64Array, count: number): number {
  for (let i = 1; i < count; i++) {
    const value = values[i]!;
    let k = i - 1;
    for (; k >= 0 && values[k]! > value; k--) values[k + 1] = values[k]!;
    values[k + 1] = value;
  }
  return values[count >> 1]!;
}
