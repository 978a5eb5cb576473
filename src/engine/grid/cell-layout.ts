import { EngineError } from '../engine-error.ts';
import type { FrameRectangle } from '../reading.ts';

const LONG_SIDE_CELLS = 96;
const SMALLEST_CELL_PX = 8;
const LARGEST_ASPECT_ERROR = 0.05;

/** How a region of the upright picture is divided; edges are whole pixels, `columns + 1` and `rows + 1` of them. */
export interface CellLayout {
  readonly columns: number;
  readonly rows: number;
  /** The region after rounding to whole pixels. */
  readonly region: FrameRectangle;
  readonly xEdges: Int32Array;
  readonly yEdges: Int32Array;
}

/** Edges rounded so that the same region seen in a mirror has the mirrored edges, where whole pixels allow it. */
function edges(from: number, to: number, count: number): Int32Array {
  const length = to - from;
  const result = new Int32Array(count + 1);
  for (let i = 0; i <= count; i++) {
    const mirrored = 2 * i > count;
    const step = ((mirrored ? count - i : i) * length) / count;
    result[i] = mirrored ? to - Math.round(step) : from + Math.round(step);
  }
  return result;
}

/**
 * Divides a region into nearly square cells: 96 along the longer side, fewer where a cell would fall under 8 × 8
 * pixels, as many along the shorter side as keep the cells square within 5 %. Where no number of cells does that
 * (regions of a few cells), the squarest division wins.
 *
 * @throws {@link EngineError} `too-small` where not even 2 × 2 cells of 8 pixels fit.
 */
export function cellLayout(widthPx: number, heightPx: number, region: FrameRectangle): CellLayout {
  const x0 = Math.round(region.left * widthPx);
  const x1 = Math.round(region.right * widthPx);
  const y0 = Math.round(region.top * heightPx);
  const y1 = Math.round(region.bottom * heightPx);
  const width = x1 - x0;
  const height = y1 - y0;
  const long = Math.max(width, height);
  const short = Math.min(width, height);
  if (!(short >= 2 * SMALLEST_CELL_PX)) {
    throw new EngineError(
      'too-small',
      `The picture to read is ${width} × ${height} pixels; at least ${2 * SMALLEST_CELL_PX} × ${2 * SMALLEST_CELL_PX} are needed. Choose a larger picture or region.`,
      { widthPx: width, heightPx: height },
    );
  }
  let best = { alongLong: 2, alongShort: 2, error: Number.POSITIVE_INFINITY };
  for (
    let alongLong = Math.min(LONG_SIDE_CELLS, Math.floor(long / SMALLEST_CELL_PX));
    alongLong >= 2;
    alongLong--
  ) {
    const side = long / alongLong;
    const alongShort = Math.max(1, Math.min(Math.round(short / side), Math.floor(short / SMALLEST_CELL_PX)));
    const error = Math.abs(short / alongShort / side - 1);
    if (error < best.error) best = { alongLong, alongShort, error };
    if (error <= LARGEST_ASPECT_ERROR) break;
  }
  const columns = width >= height ? best.alongLong : best.alongShort;
  const rows = width >= height ? best.alongShort : best.alongLong;
  return {
    columns,
    rows,
    region: { left: x0 / widthPx, top: y0 / heightPx, right: x1 / widthPx, bottom: y1 / heightPx },
    xEdges: edges(x0, x1, columns),
    yEdges: edges(y0, y1, rows),
  };
}
