/**
 * Fills, for one row as stored, how much of each channel's light is the background's own: 1 where the gain holds in
 * full, 0 where nothing is touched.
 */
export type ShareOfBackground = (
  row: number,
  red: Float64Array,
  green: Float64Array,
  blue: Float64Array,
) => void;
