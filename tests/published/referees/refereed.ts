import { halfUnitIn, numberIn, type PublishedRow } from '../read-table.ts';

/**
 * How sure a source is: its text was seen, quoted by another, remembered, its figures worked out anew, or derived for
 * this project and published nowhere.
 */
export type SourceMark = 'seen' | 'second-hand' | 'remembered' | 'recomputed' | 'own';

/** One value of a source beside the tool's own, which is worked out when the table is made. */
export interface RefereedFigure {
  readonly name: string;
  /** As it is printed, or as its table has it. */
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

/** Half a unit in the last digit of a figure as it is printed. */
export const halfUnitOf = (printed: string) => 0.5 * 10 ** -(printed.split('.')[1] ?? '').length;

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

/** What a source's figures count as: "published" only where somebody's print of them was seen or is quoted. */
export type SourceKind = 'published' | 'remembered' | 'recomputed' | 'own';

export function kindOf({ marks }: Pick<RefereedSource, 'marks'>): SourceKind {
  if (marks.includes('seen') || marks.includes('second-hand')) return 'published';
  if (marks.includes('remembered')) return 'remembered';
  return marks.includes('recomputed') ? 'recomputed' : 'own';
}

/** Whether what is only remembered is told to be a standard's by its number, which nobody has looked up. */
export const isToldAsStandards = ({ marks, source }: Pick<RefereedSource, 'marks' | 'source'>) =>
  marks.includes('remembered') && /\b(ISO|IEC|EN|ANSI|CIE|SMPTE)( ST| C)? ?\d/.test(source);

export const offBy = ({ printed, own }: RefereedFigure) => Math.abs(own - Number(printed));
