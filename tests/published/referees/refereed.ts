import { halfUnitIn, numberIn, type PublishedRow } from '../read-table.ts';

/** How sure a source is: its text was seen, quoted by another, remembered, or its figures worked out anew. */
export type SourceMark = 'seen' | 'second-hand' | 'remembered' | 'recomputed';

/** One published value beside the tool's own, which is worked out when the table is made. */
export interface RefereedFigure {
  readonly name: string;
  /** As it is printed. */
  readonly printed: number | string;
  readonly own: number;
  /** How far a right figure may lie from it, in its own unit. */
  readonly tolerance: number;
}

/** Figures of one source and one unit. */
export interface RefereedSource {
  readonly title: string;
  readonly source: string;
  readonly marks: readonly SourceMark[];
  readonly unit: string;
  /** What the tolerance stands for. */
  readonly tolerance: string;
  readonly figures: readonly RefereedFigure[];
}

/** A library or program that does the same by itself, and the largest difference over many inputs. */
export interface RefereedLibrary {
  readonly library: string;
  readonly what: string;
  readonly inputs: string;
  readonly largest: number;
  readonly allowed: number;
  readonly unit: string;
}

export const HALF_A_DIGIT = 'half a unit in the last printed digit';

/** A cell of a table beside the tool's own figure; by half a unit of its last digit unless told otherwise. */
export function ofCell(
  row: PublishedRow,
  column: string,
  name: string,
  own: number,
  tolerance = halfUnitIn(row, column),
): RefereedFigure {
  numberIn(row, column);
  return { name, printed: row[column]!, own, tolerance };
}

export const offBy = ({ printed, own }: RefereedFigure) => Math.abs(own - Number(printed));
