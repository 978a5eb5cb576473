import { halfUnitIn, numberIn, type PublishedRow } from './read-table.ts';

/** One light before the plane z = 0, lengths in any one unit; looks squarely at its own foot unless aimed. */
export interface TableLight {
  readonly x?: number;
  readonly y?: number;
  readonly distance: number;
  readonly aimX?: number;
  /** A point where left out. */
  readonly face?:
    | { readonly kind: 'disc'; readonly diameter: number }
    | { readonly kind: 'rectangle'; readonly width: number; readonly height: number };
  /** Alike all round, or as an even (Lambertian) face. */
  readonly beam: 'constant' | 'lambertian';
  /** Behind a sheet that scatters evenly instead of before a wall. */
  readonly behindSheet?: boolean;
}

/** What a light throws at a spot of the plane: 1 squarely from 1 away, for a point. */
export type LightMaker = (light: TableLight) => (x: number, y: number) => number;

/** A printed figure and the same worked out. */
export interface LightRow {
  readonly name: string;
  readonly printed: number;
  readonly halfUnit: number;
  readonly workedOut: (make: LightMaker) => number;
}

/** A figure of a table beside how it is worked out. */
export function rowOf(
  row: PublishedRow,
  column: string,
  name: string,
  workedOut: LightRow['workedOut'],
): LightRow {
  return { name, printed: numberIn(row, column), halfUnit: halfUnitIn(row, column), workedOut };
}
