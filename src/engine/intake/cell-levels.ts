import { EngineError } from '../engine-error.ts';
import type { Vector3 } from '../numeric/matrix3.ts';
import type { BayerOrder } from './bayer-order.ts';
import type { DngTags } from './dng-tags.ts';
import type { RawMosaic } from './raw-file.ts';

/** Black and white of a mosaic's cells. */
export interface CellLevels {
  /** Black of the four cells of a quad: top left, top right, bottom left, bottom right. */
  readonly black: readonly [number, number, number, number];
  /** What a single cell's black is above that, by its column and row in the picture; `null` where nothing is. */
  readonly beyond: ((column: number, row: number) => number) | null;
  /** Of red, green and blue. */
  readonly white: Vector3;
  /** From which code on cells are full; white where left out. */
  readonly full?: Vector3;
}

/** The levels that a DNG states, about the picture that the decoder found in the mosaic. */
export function dngLevels(
  { activeArea, black, columnBlack, rowBlack, white }: DngTags,
  { left_margin, top_margin, width, height }: RawMosaic,
  whiteOtherwise: number,
): CellLevels {
  const right = left_margin - (activeArea?.left ?? 0);
  const down = top_margin - (activeArea?.top ?? 0);
  const wrapped = (value: number, size: number) => ((value % size) + size) % size;
  const levelAt = (column: number, row: number) =>
    black.levels[wrapped(row + down, black.rows) * black.columns + wrapped(column + right, black.columns)]!;
  const at = (column: number, row: number) =>
    levelAt(column, row) + (columnBlack?.[column + right] ?? 0) + (rowBlack?.[row + down] ?? 0);
  const isPlain = black.rows <= 2 && black.columns <= 2 && !columnBlack && !rowBlack;
  const quad = isPlain
    ? [at(0, 0), at(1, 0), at(0, 1), at(1, 1)]
    : [0, 1, 2, 3].map((site) => meanOf(at, site & 1, site >> 1, width, height));
  return {
    black: quad as unknown as CellLevels['black'],
    beyond: isPlain ? null : (column, row) => at(column, row) - quad[(row & 1) * 2 + (column & 1)]!,
    white: [white ?? whiteOtherwise, white ?? whiteOtherwise, white ?? whiteOtherwise],
  };
}

/** Over the cells of one place in the quads; what repeats and what columns and rows add are a sum, so 128 of each do. */
function meanOf(
  at: (column: number, row: number) => number,
  firstColumn: number,
  firstRow: number,
  width: number,
  height: number,
): number {
  const [columns, rows] = [Math.min(width, 128), Math.min(height, 128)];
  let sum = 0;
  let count = 0;
  for (let row = firstRow; row < rows; row += 2)
    for (let column = firstColumn; column < columns; column += 2, count++) sum += at(column, row);
  return sum / count;
}

/** @throws {@link EngineError} `unreadable-file` where white does not lie above black: such levels are damage. */
export function checkLevels(black: readonly number[], white: number): void {
  const highest = Math.max(...black);
  if (white > highest && black.every((level) => Number.isFinite(level)) && white <= LARGEST_CODE) return;
  throw new EngineError(
    'unreadable-file',
    `The raw file is damaged: it gives ${white} as white and ${highest} as black. Copy it from the card again.`,
    { format: 'raw', black: highest, white },
  );
}

const LARGEST_CODE = 65535;

/** Black of red, green and blue: greens are taken together, so the mean of their two counts. */
export function blackOfChannels({ black }: CellLevels, order: BayerOrder): Vector3 {
  const mean = (letter: string) => {
    const its = black.filter((_, site) => order[site] === letter);
    return its.reduce((sum, level) => sum + level, 0) / its.length;
  };
  return [mean('R'), mean('G'), mean('B')];
}
