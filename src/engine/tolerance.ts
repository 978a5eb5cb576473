/** How even and how neutral is enough, and who says so. */
export interface Tolerance {
  readonly name: string;
  /** A standard as marked in the project's list of standards, or "common practice, no published source". */
  readonly source: string;
  readonly measure: 'range' | 'from-centre' | 'nine-point-min-max' | 'min-over-mean';
  /** Stops for `range`; a ratio for the others (`from-centre` 0.10 means ±10 %). */
  readonly limit: number;
  /** Largest distance in u′v′ of any cell from the mean, and of the mean from the white. */
  readonly tintDeltaUv: number;
  readonly castDeltaUv: number;
}
