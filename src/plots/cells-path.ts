import type { CellMap } from './cell-map.ts';

/** SVG path data of the chosen cells as an area, one rectangle a run along a row; an empty string for none. */
export function cellsPath(
  { columns, rows }: Pick<CellMap, 'columns' | 'rows'>,
  isChosen: (cell: number) => boolean,
  { width, height }: { width: number; height: number },
): string {
  const across = (column: number) => Number(((column / columns) * width).toFixed(1));
  const down = (row: number) => Number(((row / rows) * height).toFixed(1));
  let path = '';
  for (let row = 0; row < rows; row++)
    for (let column = 0; column < columns; column++) {
      const start = column;
      while (column < columns && isChosen(row * columns + column)) column++;
      if (column > start)
        path += `M${across(start)},${down(row)}H${across(column)}V${down(row + 1)}H${across(start)}Z`;
    }
  return path;
}
