import { xyToUvPrime } from '../../src/engine/colour/chromaticity.ts';
import { D65 } from '../../src/engine/colour/white-points.ts';
import { type Reading, WHOLE_FRAME } from '../../src/engine/reading.ts';

const WHITE = xyToUvPrime(D65);

/** A whole Reading of a known field: stops and tint offsets as functions of x and y (0 to 1). */
export function readingFixture(
  field: {
    columns?: number;
    rows?: number;
    ev?: (x: number, y: number) => number | null;
    tint?: (x: number, y: number) => readonly [du: number, dv: number];
  } = {},
  change: Partial<Reading> = {},
): Reading {
  const { columns = 48, rows = 32, ev = (x) => -0.6 * (1 - x), tint = () => [0, 0] as const } = field;
  const cells = Array.from({ length: columns * rows }, (_, i) => ({
    x: ((i % columns) + 0.5) / columns,
    y: (Math.floor(i / columns) + 0.5) / rows,
  }));
  const raw = cells.map(({ x, y }) => ev(x, y));
  const brightest = Math.max(...raw.filter((value) => value !== null));
  const evMap = raw.map((value) => (value === null ? null : value - brightest));
  const spreadEv = -Math.min(...evMap.filter((value) => value !== null));
  const at = (value: number) => cells[evMap.indexOf(value)]!;
  return {
    schema: 'evenfield.reading/1',
    frame: {
      name: 'tumbler-background.png',
      sha256: null,
      widthPx: 1200,
      heightPx: 800,
      orientation: 1,
      bitsPerSample: 16,
      light: 'display-decoded',
      lightSays: 'Read as sRGB; a camera’s tone curve would falsify the stops.',
      colourProfile: 'sRGB',
      exposure: null,
      averagedFrames: 1,
    },
    region: WHOLE_FRAME,
    grid: { columns, rows },
    falloff: {
      spreadEv,
      plusMinusEv: 0.02,
      stdEv: 0.1,
      minOverMax: 2 ** -spreadEv,
      minOverMean: 0.8,
      ninePointMinOverMax: 0.75,
      fromCentreMax: 0.2,
      steepestEvPerFrameWidth: 0.6,
      brightestAt: at(0),
      darkestAt: at(-spreadEv),
      isLowerBound: false,
      evMap,
      cellPlusMinusEv: 0.01,
    },
    tint: {
      spreadDeltaUv: 0.002,
      plusMinusDeltaUv: 0.0002,
      deltaE00Max: 1,
      uPrimeMap: cells.map(({ x, y }) => WHITE.uPrime + tint(x, y)[0]),
      vPrimeMap: cells.map(({ x, y }) => WHITE.vPrime + tint(x, y)[1]),
    },
    cast: {
      uPrime: WHITE.uPrime,
      vPrime: WHITE.vPrime,
      deltaUPrime: 0,
      deltaVPrime: 0,
      deltaUv: 0,
      labA: 0,
      labB: 0,
      deltaE00: 0,
      mired: 0,
      duv: 0,
      plusMinusDeltaUv: 0.0003,
      plusMinusMired: 1,
      plusMinusDuv: 0.0002,
    },
    gradient: {
      angleDeg: 0,
      ev: 0.6,
      mired: 9,
      duv: 0,
      from: { x: 0, y: 0.5 },
      to: { x: 1, y: 0.5 },
      explains: 1,
      plusMinusDeg: 1,
      plusMinusEv: 0.01,
      plusMinusMired: 1,
    },
    tintGradient: { angleDeg: 0, deltaUv: 0.004, mired: 9, duv: 0 },
    clipping: { highlightShare: 0, shadowShare: 0 },
    noise: { perPixelEv: 0.01, perCellEv: 0.0005 },
    findings: [],
    moves: [],
    predicted: null,
    within: { share: 0.5, crop: { left: 0.5, top: 0.1, right: 1, bottom: 0.9 } },
    verdict: { even: 'no', neutral: 'yes', exposed: 'yes' },
    ...change,
  };
}
