import {
  locusPlace,
  srgbLightOfXyz,
  uvPrimeOfXyz,
  WHITE_XYZ,
  type Xyz,
  xyzOfSrgbLight as xyzOf,
} from './colour-truth.ts';
import type { KnownField } from './known-field.ts';
import { planeThrough, smoothedByPlanes } from './plane-through-cells.ts';
import { type CellLayout, cellCentres, cellMeans, WHOLE } from './true-cells.ts';

export interface TruthOptions extends CellLayout {
  /** Of the whole upright frame: gives the shape of a pixel's square, and the raster where `byPixels`. */
  readonly widthPx: number;
  readonly heightPx: number;
  /** Average over the pixel centres in a cell instead of over its area. */
  readonly byPixels?: boolean;
}

/** What a faultless reading of a noise-free frame of unlimited depth would say, by the public contract's words. */
export interface FieldTruth {
  readonly columns: number;
  readonly rows: number;
  /** Mean XYZ of each cell, and the field itself at its centre; row-major. */
  readonly cells: readonly Xyz[];
  readonly centres: readonly Xyz[];
  readonly smoothed: readonly Xyz[];
  readonly evMap: Float64Array;
  readonly spreadEv: number;
  readonly stdEv: number;
  readonly brightestAt: { readonly x: number; readonly y: number };
  readonly darkestAt: { readonly x: number; readonly y: number };
  readonly uPrimeMap: Float64Array;
  readonly vPrimeMap: Float64Array;
  readonly spreadDeltaUv: number;
  readonly meanXyz: Xyz;
  readonly cast: TrueCast;
  readonly gradient: TrueGradient;
}

export interface TrueCast {
  readonly uPrime: number;
  readonly vPrime: number;
  readonly deltaUv: number;
  readonly mired: number;
  readonly duv: number;
}

export interface TrueGradient {
  readonly angleDeg: number;
  readonly ev: number;
  readonly mired: number;
  readonly duv: number;
  readonly from: { readonly x: number; readonly y: number };
  readonly to: { readonly x: number; readonly y: number };
  readonly explains: number;
}

/** Works out every figure of a known field from the field itself. */
export function fieldTruth(field: KnownField, options: TruthOptions): FieldTruth {
  const { columns, rows, widthPx, heightPx, region = WHOLE, byPixels = false } = options;
  const cells = cellMeans(field, options, byPixels ? { widthPx, heightPx } : undefined);
  const channel = (index: 0 | 1 | 2) =>
    smoothedByPlanes(
      cells.map((cell) => cell[index]),
      columns,
      rows,
    );
  const [x, y, z] = [channel(0), channel(1), channel(2)];
  const smoothed = y.map((_, i): Xyz => [x[i]!, y[i]!, z[i]!]);
  const brightest = Math.max(...y);
  const evMap = Float64Array.from(y, (value) => Math.log2(value / brightest));
  const meanEv = evMap.reduce((sum, ev) => sum + ev, 0) / evMap.length;
  const uv = smoothed.map(uvPrimeOfXyz);
  const meanXyz = meanOf(cells);
  const [meanU, meanV] = uvPrimeOfXyz(meanXyz);
  const positionOf = (index: number) => ({
    x: region.left + (((index % columns) + 0.5) / columns) * (region.right - region.left),
    y: region.top + ((Math.floor(index / columns) + 0.5) / rows) * (region.bottom - region.top),
  });
  const spreadEv = -Math.min(...evMap);
  return {
    columns,
    rows,
    cells,
    centres: cellCentres(field, options),
    smoothed,
    evMap,
    spreadEv,
    stdEv: Math.sqrt(evMap.reduce((sum, ev) => sum + (ev - meanEv) ** 2, 0) / evMap.length),
    brightestAt: positionOf(evMap.indexOf(0)),
    darkestAt: positionOf(evMap.indexOf(-spreadEv)),
    uPrimeMap: Float64Array.from(uv, ([u]) => u),
    vPrimeMap: Float64Array.from(uv, ([, v]) => v),
    spreadDeltaUv: Math.max(...uv.map(([u, v]) => Math.hypot(u - meanU, v - meanV))),
    meanXyz,
    cast: castOf(meanXyz),
    gradient: gradientOf(
      cells,
      cells.map((_, i) => positionOf(i)),
      options,
    ),
  };
}

/** Distance of a colour from D65, and its place by the Planckian locus relative to D65's own. */
export function castOf(xyz: Xyz): TrueCast {
  const [uPrime, vPrime] = uvPrimeOfXyz(xyz);
  const [whiteU, whiteV] = uvPrimeOfXyz(WHITE_XYZ);
  const here = locusPlace(uPrime, vPrime);
  const white = locusPlace(whiteU, whiteV);
  return {
    uPrime,
    vPrime,
    deltaUv: Math.hypot(uPrime - whiteU, vPrime - whiteV),
    mired: here.mired - white.mired,
    duv: here.duv - white.duv,
  };
}

/**
 * The plane through log2 Y of the cells in square-pixel coordinates (frame width 1); its colour change is that of the
 * planes through log2 of each linear sRGB channel, from the darker to the brighter end.
 */
function gradientOf(
  cells: readonly Xyz[],
  positions: readonly { readonly x: number; readonly y: number }[],
  { widthPx, heightPx, region = WHOLE }: TruthOptions,
): TrueGradient {
  const tall = heightPx / widthPx;
  const xs = positions.map(({ x }) => x);
  const ys = positions.map(({ y }) => y * tall);
  const middle = { x: 0.5 * (region.left + region.right), y: 0.5 * (region.top + region.bottom) };
  const planeOf = (values: readonly number[]) => planeThrough(xs, ys, values, middle.x, middle.y * tall);
  const ev = cells.map(([, y]) => Math.log2(y));
  const plane = planeOf(ev);
  const halfWidth = 0.5 * (region.right - region.left);
  const halfHeight = 0.5 * (region.bottom - region.top) * tall;
  const rise = Math.hypot(plane.right, plane.down);
  const halfRange = Math.abs(plane.right) * halfWidth + Math.abs(plane.down) * halfHeight;
  const reach = halfRange / rise; // along the steepest rise, from the middle to where the plane takes its extremes
  const [stepX, stepY] = [(reach * plane.right) / rise, (reach * plane.down) / rise / tall];
  const light = cells.map((cell) => srgbLightOfXyz(cell));
  const channels = ([0, 1, 2] as const).map((index) => planeOf(light.map((rgb) => Math.log2(rgb[index]))));
  const endCast = (sign: 1 | -1) => {
    const rgb = channels.map(
      (p) => 2 ** (p.centre + sign * (p.right * stepX + p.down * stepY * tall)),
    ) as unknown as readonly [number, number, number];
    return castOf(xyzOf(rgb));
  };
  const [dark, bright] = [endCast(-1), endCast(1)];
  const mean = ev.reduce((sum, value) => sum + value, 0) / ev.length;
  let [left, whole] = [0, 0];
  ev.forEach((value, i) => {
    const fitted = plane.centre + plane.right * (xs[i]! - middle.x) + plane.down * (ys[i]! - middle.y * tall);
    left += (value - fitted) ** 2;
    whole += (value - mean) ** 2;
  });
  return {
    angleDeg: ((Math.atan2(plane.down, plane.right) * 180) / Math.PI + 360) % 360,
    ev: 2 * halfRange,
    mired: bright.mired - dark.mired,
    duv: bright.duv - dark.duv,
    from: { x: middle.x - stepX, y: middle.y - stepY },
    to: { x: middle.x + stepX, y: middle.y + stepY },
    explains: 1 - left / whole,
  };
}

function meanOf(cells: readonly Xyz[]): Xyz {
  const sum = [0, 0, 0];
  for (const cell of cells) for (let i = 0; i < 3; i++) sum[i]! += cell[i]!;
  return [sum[0]! / cells.length, sum[1]! / cells.length, sum[2]! / cells.length];
}
