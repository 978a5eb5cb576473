import type { DiagnosisInput } from '../../../src/engine/diagnosis/diagnosis-input.ts';
import type { CellGrid } from '../../../src/engine/grid/cell-grid.ts';
import type {
  Cast,
  Falloff,
  FrameRectangle,
  Gradient,
  Measurement,
  Tint,
  TintGradient,
} from '../../../src/engine/reading.ts';
import { UNKNOWN_SETUP } from '../../../src/engine/setup.ts';
import { DEFAULT_TOLERANCE } from '../../../src/engine/tolerances.ts';

export interface MeasuredField {
  /** Stops at a place across the frame, to any level. */
  readonly ev: (x: number, y: number) => number;
  readonly columns?: number;
  readonly rows?: number;
  readonly region?: FrameRectangle;
  readonly falloff?: Partial<Falloff>;
  readonly gradient?: Partial<Gradient>;
  readonly cast?: Partial<Cast>;
  readonly tint?: Partial<Tint>;
  readonly tintGradient?: TintGradient;
  readonly highlightShare?: number;
  readonly shadowShare?: number;
}

const NO_CAST: Cast = {
  uPrime: 0.1978,
  vPrime: 0.4683,
  deltaUPrime: 0,
  deltaVPrime: 0,
  deltaUv: 0,
  labA: 0,
  labB: 0,
  deltaE00: 0,
  mired: 0,
  duv: 0,
  plusMinusDeltaUv: 0.0003,
  plusMinusMired: 0.5,
  plusMinusDuv: 0.0003,
};

/** A measurement as the earlier stages would make it of a field known in stops, on cells of a 3 : 2 frame. */
export function measurementOf(field: MeasuredField): Measurement {
  const { columns = 48, rows = 32, region = { left: 0, top: 0, right: 1, bottom: 1 } } = field;
  const places = Array.from({ length: columns * rows }, (_, cell) => ({
    x: region.left + (((cell % columns) + 0.5) / columns) * (region.right - region.left),
    y: region.top + ((Math.floor(cell / columns) + 0.5) / rows) * (region.bottom - region.top),
  }));
  const levels = places.map(({ x, y }) => field.ev(x, y));
  const brightest = Math.max(...levels);
  const evMap = levels.map((level) => level - brightest);
  const light = evMap.map((ev) => 2 ** ev);
  const lowest = Math.min(...evMap);
  const mean = light.reduce((sum, value) => sum + value, 0) / light.length;
  return {
    schema: 'evenfield.reading/1',
    frame: {
      name: 'blank.png',
      sha256: null,
      widthPx: 1200,
      heightPx: 800,
      orientation: 1,
      bitsPerSample: 16,
      light: 'scene-linear',
      lightSays: '',
      colourProfile: 'sRGB',
      exposure: null,
      averagedFrames: 1,
    },
    region,
    grid: { columns, rows },
    falloff: {
      spreadEv: -lowest,
      plusMinusEv: 0.01,
      stdEv: 0,
      minOverMax: 2 ** lowest,
      minOverMean: 2 ** lowest / mean,
      ninePointMinOverMax: 1,
      fromCentreMax: 0,
      steepestEvPerFrameWidth: 0,
      brightestAt: places[levels.indexOf(brightest)]!,
      darkestAt: places[evMap.indexOf(lowest)]!,
      isLowerBound: false,
      evMap,
      cellPlusMinusEv: 0.003,
      ...field.falloff,
    },
    tint: {
      spreadDeltaUv: 0,
      plusMinusDeltaUv: 0.0003,
      deltaE00Max: 0,
      uPrimeMap: [],
      vPrimeMap: [],
      ...field.tint,
    },
    cast: { ...NO_CAST, ...field.cast },
    gradient: { ...gradientOf(places, evMap, region), ...field.gradient },
    tintGradient: field.tintGradient ?? { angleDeg: null, deltaUv: 0, mired: null, duv: null },
    clipping: { highlightShare: field.highlightShare ?? 0, shadowShare: field.shadowShare ?? 0 },
    noise: { perPixelEv: 0.01, perCellEv: 0.001 },
  };
}

/** Least-squares plane: on an even grid the two slopes are separate regressions. */
function gradientOf(
  places: readonly { x: number; y: number }[],
  ev: readonly number[],
  region: FrameRectangle,
): Gradient {
  const slope = (along: (place: { x: number; y: number }) => number) => {
    const centre = places.reduce((sum, place) => sum + along(place), 0) / places.length;
    const squares = places.reduce((sum, place) => sum + (along(place) - centre) ** 2, 0);
    return places.reduce((sum, place, k) => sum + (along(place) - centre) * ev[k]!, 0) / squares;
  };
  const acrossEv = slope(({ x }) => x * 1200); // stops a pixel
  const downEv = slope(({ y }) => y * 800);
  const widthPx = (region.right - region.left) * 1200;
  const heightPx = (region.bottom - region.top) * 800;
  const range = Math.abs(acrossEv) * widthPx + Math.abs(downEv) * heightPx;
  const steepness = Math.hypot(acrossEv, downEv);
  const centre = { x: (region.left + region.right) / 2, y: (region.top + region.bottom) / 2 };
  const half = steepness === 0 ? 0 : range / steepness ** 2 / 2;
  const away = (sign: number) => ({
    x: centre.x + (sign * half * acrossEv) / 1200,
    y: centre.y + (sign * half * downEv) / 800,
  });
  return {
    angleDeg: range < 0.01 ? null : ((Math.atan2(downEv, acrossEv) * 180) / Math.PI + 360) % 360,
    ev: range,
    mired: null,
    duv: null,
    from: away(-1),
    to: away(1),
    explains: 0.5,
    plusMinusDeg: 2,
    plusMinusEv: 0.01,
    plusMinusMired: null,
  };
}

/** Cells of a 14-bit-like capture that carry nothing but light and a little noise. */
export function gridOf(
  field: MeasuredField & { level?: number; scatter?: number; highlight?: (x: number, y: number) => number },
): CellGrid {
  const { columns = 48, rows = 32, region = { left: 0, top: 0, right: 1, bottom: 1 } } = field;
  const count = columns * rows;
  const at = (cell: number) => ({
    x: region.left + (((cell % columns) + 0.5) / columns) * (region.right - region.left),
    y: region.top + ((Math.floor(cell / columns) + 0.5) / rows) * (region.bottom - region.top),
  });
  const ev = Float64Array.from({ length: count }, (_, cell) => field.ev(at(cell).x, at(cell).y));
  const brightest = ev.reduce((high, value) => Math.max(high, value), Number.NEGATIVE_INFINITY);
  const light = ev.map((value) => (field.level ?? 0.5) * 2 ** (value - brightest));
  const scatter = new Float64Array(count).fill(field.scatter ?? 0.002);
  const table = Float64Array.from({ length: 16384 }, (_, code) => code / 16383);
  return {
    columns,
    rows,
    region,
    cellWidthPx: 25,
    cellHeightPx: 25,
    light: { red: light, green: light, blue: light },
    scatter: { red: scatter, green: scatter, blue: scatter },
    pixels: new Float64Array(count).fill(625),
    highlightShare: Float64Array.from({ length: count }, (_, cell) =>
      field.highlight ? field.highlight(at(cell).x, at(cell).y) : 0,
    ),
    shadowShare: new Float64Array(count),
    speckShare: new Float64Array(count),
    lightAtCode: { red: table, green: table, blue: table },
    toXyz: [0.4124, 0.3576, 0.1805, 0.2126, 0.7152, 0.0722, 0.0193, 0.1192, 0.9505],
    jpegDcSteps: null,
    jpegPixelVariance: null,
    refinedByBlocks: false,
    fine: null,
    setAsideLuminance: new Float64Array(count).fill(Number.NaN),
    darkSpeckShare: new Float64Array(count),
  };
}

/** Everything that diagnosis asks for, of a known field. */
export function diagnosisOf(
  field: Parameters<typeof gridOf>[0],
  rest: Partial<Pick<DiagnosisInput, 'setup' | 'tolerance'>> = {},
): DiagnosisInput {
  return {
    measurement: measurementOf(field),
    grid: gridOf(field),
    surfaces: [],
    set: null,
    setup: rest.setup ?? UNKNOWN_SETUP,
    tolerance: rest.tolerance ?? DEFAULT_TOLERANCE,
  };
}
