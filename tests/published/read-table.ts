import { readFileSync } from 'node:fs';

/** One row by its column's name; a cell left empty is the empty string. */
export type PublishedRow = Readonly<Record<string, string>>;

/**
 * The rows of a table in this folder, by its name without `.csv`; SOURCES.md says where each comes from.
 *
 * @throws Error where a row has another number of cells than the heading.
 */
export function readTable(name: string): readonly PublishedRow[] {
  const text = readFileSync(new URL(`${name}.csv`, import.meta.url), 'utf8');
  const [heading, ...lines] = text.split(/\r?\n/).filter((line) => line !== '');
  const columns = heading!.split(',');
  return lines.map((line, index) => {
    const cells = line.split(',');
    if (cells.length !== columns.length)
      throw new Error(
        `${name}.csv, row ${index + 1}: ${cells.length} cells under ${columns.length} headings`,
      );
    return Object.fromEntries(columns.map((column, i) => [column, cells[i]!]));
  });
}

/** @throws Error where the row has no such column or no number in it. */
export function numberIn(row: PublishedRow, column: string): number {
  const cell = row[column];
  if (cell === undefined || cell === '' || Number.isNaN(Number(cell)))
    throw new Error(`no number under "${column}" in ${JSON.stringify(row)}`);
  return Number(cell);
}

/** Half a unit of the last digit that a cell prints: how far a right figure may lie from it. */
export function halfUnitIn(row: PublishedRow, column: string): number {
  numberIn(row, column);
  return 0.5 * 10 ** -(row[column]!.split('.')[1] ?? '').length;
}
