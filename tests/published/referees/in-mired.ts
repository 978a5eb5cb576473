import { kelvinToMired } from '../../../src/engine/colour/mired.ts';
import { numberIn, type PublishedRow } from '../read-table.ts';
import type { RefereedFigure } from './refereed.ts';

/** A kelvin column as mired, in which a step means the same anywhere. */
export function inMired(
  row: PublishedRow,
  column: string,
  name: string,
  own: number,
  tolerance: number,
): RefereedFigure {
  return { name, printed: kelvinToMired(numberIn(row, column)).toFixed(4), own, tolerance };
}
