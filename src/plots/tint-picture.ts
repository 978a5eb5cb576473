import { type UvPrime, uvPrimeToXy, xyToUvPrime, xyToXyz } from '../engine/colour/chromaticity.ts';
import { srgbEncode } from '../engine/colour/srgb-curve.ts';
import { D65 } from '../engine/colour/white-points.ts';
import type { Reading } from '../engine/reading.ts';
import { cellMap } from './cell-map.ts';
import type { MapPicture } from './falloff-picture.ts';
import { meanChromaticity } from './mean-chromaticity.ts';

/** L* where the tint is none and where it is strongest; between them L* falls evenly with Δu′v′. */
const PALEST_LIGHTNESS = 86;
const DEEPEST_LIGHTNESS = 62;
/** Farthest from white that a cell is drawn, in u′v′: all around white, sRGB holds that at these L*. */
const FARTHEST_DRAWN = 0.03;
const STRENGTHS = [100, 50, 20, 10, 5, 2, 1];

const WHITE: UvPrime = xyToUvPrime(D65);

/**
 * A map of tint against the mean: each cell in the true direction of its tint, strengthened by a factor that is to
 * be stated, and darker the stronger it is, so that the shape can be read without seeing the hue.
 * A tint far below `worthSeeingDeltaUv` (the tolerance) stays faint. NaN cells are transparent.
 */
export function tintPicture(reading: Reading, worthSeeingDeltaUv = 0): MapPicture {
  const { uPrime, vPrime } = meanChromaticity(reading);
  const { columns, rows } = reading.grid;
  return tintOffsetsPicture(
    {
      ...{ columns, rows },
      deltaUPrimes: cellMap(reading.grid, reading.tint.uPrimeMap).values.map((u) => u - uPrime),
      deltaVPrimes: cellMap(reading.grid, reading.tint.vPrimeMap).values.map((v) => v - vPrime),
    },
    worthSeeingDeltaUv,
  );
}

/** How far each cell lies from what is drawn as white, in u′v′. */
export interface TintOffsets {
  readonly columns: number;
  readonly rows: number;
  readonly deltaUPrimes: Float64Array;
  readonly deltaVPrimes: Float64Array;
}

/** {@link tintPicture} of any offsets. */
export function tintOffsetsPicture(
  { columns, rows, deltaUPrimes, deltaVPrimes }: TintOffsets,
  worthSeeingDeltaUv = 0,
): MapPicture {
  const distances = deltaUPrimes.map((du, i) => Math.hypot(du, deltaVPrimes[i]!));
  const strongest = distances.reduce(
    (most, distance) => (Number.isNaN(distance) ? most : Math.max(most, distance)),
    worthSeeingDeltaUv,
  );
  const strengthened = STRENGTHS.find((factor) => strongest * factor <= FARTHEST_DRAWN) ?? 1;
  const rgba = new Uint8ClampedArray(columns * rows * 4);
  distances.forEach((distance, i) => {
    if (Number.isNaN(distance)) return;
    const drawn = Math.min(1, (distance * strengthened) / FARTHEST_DRAWN);
    const shrink = distance > 0 ? (drawn * FARTHEST_DRAWN) / distance : 0;
    const colour = drawnColour(
      WHITE.uPrime + deltaUPrimes[i]! * shrink,
      WHITE.vPrime + deltaVPrimes[i]! * shrink,
      PALEST_LIGHTNESS + (DEEPEST_LIGHTNESS - PALEST_LIGHTNESS) * drawn,
    );
    rgba.set([...colour, 255], i * 4);
  });
  return { columns, rows, rgba, strengthened };
}

/** sRGB codes of a chromaticity at an L*. Source of the matrix: IEC 61966-2-1:1999, XYZ to linear sRGB. */
function drawnColour(uPrime: number, vPrime: number, lightness: number): number[] {
  const y = ((lightness + 16) / 116) ** 3;
  const [x1, , z1] = xyToXyz(uvPrimeToXy({ uPrime, vPrime }));
  const x = x1 * y;
  const z = z1 * y;
  const light = [
    3.2406 * x - 1.5372 * y - 0.4986 * z,
    -0.9689 * x + 1.8758 * y + 0.0415 * z,
    0.0557 * x - 0.204 * y + 1.057 * z,
  ];
  return light.map((channel) => 255 * srgbEncode(Math.max(0, channel)));
}
