import { cellCentre } from '../numeric/cell-centre.ts';
import type { Falloff, FramePoint, FrameRectangle } from '../reading.ts';

export interface FalloffInput {
  readonly columns: number;
  readonly rows: number;
  readonly region: FrameRectangle;
  /** Cell size in frame widths, along x and y. */
  readonly cellWidth: number;
  readonly cellHeight: number;
  /** Smoothed luminance, NaN without measurement. */
  readonly luminance: Float64Array;
  readonly brightestCell: number;
  readonly darkestCell: number;
  readonly isLowerBound: boolean;
  readonly plusMinusEv: number;
  readonly cellPlusMinusEv: number;
}

/** Zone centres of the nine-point measurement: the middles of 3 × 3 equal zones (ISO 11315-1, second-hand). */
const ZONE_CENTRES = [1 / 6, 1 / 2, 5 / 6] as const;

/** Bilinear value of cells at a place in the region (0 to 1); NaN where a cell that counts has no measurement. */
function valueAt(values: Float64Array, columns: number, rows: number, x: number, y: number): number {
  const c = Math.max(0, Math.min(columns - 1, x * columns - 0.5));
  const r = Math.max(0, Math.min(rows - 1, y * rows - 0.5));
  const c0 = Math.floor(c);
  const r0 = Math.floor(r);
  const c1 = Math.min(columns - 1, c0 + 1);
  const r1 = Math.min(rows - 1, r0 + 1);
  const top = mix(values[r0 * columns + c0]!, values[r0 * columns + c1]!, c - c0);
  const bottom = mix(values[r1 * columns + c0]!, values[r1 * columns + c1]!, c - c0);
  return mix(top, bottom, r - r0);
}

/** The measured cell nearest to the region's centre: stands in for it where something covers the centre itself. */
function nearestToCentre(
  values: Float64Array,
  { columns, rows, cellWidth, cellHeight }: FalloffInput,
): number {
  let nearest = Number.POSITIVE_INFINITY;
  let found = Number.NaN;
  values.forEach((value, i) => {
    const right = ((i % columns) + 0.5 - columns / 2) * cellWidth;
    const down = (Math.floor(i / columns) + 0.5 - rows / 2) * cellHeight;
    const distance = Math.hypot(right, down);
    if (Number.isNaN(value) || distance >= nearest) return;
    nearest = distance;
    found = value;
  });
  return found;
}

const mix = (a: number, b: number, t: number) => (t === 0 ? a : a + (b - a) * t);

/** Steepest slope of the map in stops per frame width, over four cells each way (fewer along the edge). */
function steepest(ev: Float64Array, { columns, rows, cellWidth, cellHeight }: FalloffInput): number {
  let most = 0;
  const slope = (i: number, stride: number, position: number, count: number, size: number) => {
    const before = Math.max(-2, -position);
    const after = Math.min(2, count - 1 - position);
    return after > before
      ? (ev[i + after * stride]! - ev[i + before * stride]!) / ((after - before) * size)
      : 0;
  };
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++) {
      const i = row * columns + column;
      const size = Math.hypot(
        slope(i, 1, column, columns, cellWidth),
        slope(i, columns, row, rows, cellHeight),
      );
      if (size > most) most = size; // NaN compares false
    }
  }
  return most;
}

/** The falloff figures of the contract, from smoothed luminance. */
export function falloff(input: FalloffInput): Falloff {
  const { columns, rows, region, luminance, brightestCell, darkestCell } = input;
  const brightest = luminance[brightestCell]!;
  const ev = luminance.map((value) => Math.log2(value / brightest));
  const measured = ev.filter((value) => !Number.isNaN(value));
  const meanEv = measured.reduce((sum, value) => sum + value, 0) / measured.length;
  const meanLight =
    luminance.reduce((sum, value) => (Number.isNaN(value) ? sum : sum + value), 0) / measured.length;
  const middle = valueAt(luminance, columns, rows, 0.5, 0.5);
  const centre = Number.isNaN(middle) ? nearestToCentre(luminance, input) : middle;
  const nine = ZONE_CENTRES.flatMap((y) =>
    ZONE_CENTRES.map((x) => valueAt(luminance, columns, rows, x, y)),
  ).filter((value) => !Number.isNaN(value));
  const darkest = luminance[darkestCell]!;
  if (nine.length === 0) nine.push(darkest, brightest); // nothing measured at any of the nine: the bound they have
  const at = (cell: number): FramePoint => cellCentre({ columns, rows, region }, cell);
  return {
    spreadEv: Math.log2(brightest / darkest),
    plusMinusEv: input.plusMinusEv,
    stdEv: Math.sqrt(measured.reduce((sum, value) => sum + (value - meanEv) ** 2, 0) / measured.length),
    minOverMax: darkest / brightest,
    minOverMean: darkest / meanLight,
    ninePointMinOverMax: Math.min(...nine) / Math.max(...nine),
    fromCentreMax: Math.max(brightest / centre - 1, 1 - darkest / centre),
    steepestEvPerFrameWidth: steepest(ev, input),
    brightestAt: at(brightestCell),
    darkestAt: at(darkestCell),
    isLowerBound: input.isLowerBound,
    evMap: withNulls(ev),
    cellPlusMinusEv: input.cellPlusMinusEv,
  };
}

/** NaN inside the engine is `null` in a Reading. */
export function withNulls(values: Float64Array): (number | null)[] {
  return Array.from(values, (value) => (Number.isFinite(value) ? value : null));
}
