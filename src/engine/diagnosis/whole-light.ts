/**
 * Luminance of all cells of the whole frame, where only a part of it was found to be lit and read. Row-major, NaN
 * without light. Structured-cloneable.
 */
export interface WholeLight {
  readonly columns: number;
  readonly rows: number;
  readonly luminance: Float64Array;
}
