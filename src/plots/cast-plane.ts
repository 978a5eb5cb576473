import { type UvPrime, xyToUvPrime } from '../engine/colour/chromaticity.ts';
import { D65 } from '../engine/colour/white-points.ts';
import type { Reading } from '../engine/reading.ts';
import type { Tolerance } from '../engine/tolerance.ts';
import { linePath } from './line-path.ts';
import type { PlotPoint } from './plot-line.ts';

/** Two loci through the plane, each from cool to warm. */
export interface WhiteLoci {
  readonly planckian: readonly UvPrime[];
  readonly daylight: readonly UvPrime[];
}

/** A word just outside the square, where its direction leaves it: nothing is drawn there. */
export interface PlaneWord {
  readonly text: string;
  /** Middle of the word. */
  readonly at: PlotPoint;
  /** 0 above and below the square, −90 (reading upwards) beside it. */
  readonly angleDeg: 0 | -90;
}

/** A square plane of Δu′ (right) and Δv′ (up) about the white, at one scale, so that a distance is a circle. */
export interface CastPlane {
  readonly size: number;
  readonly white: PlotPoint;
  readonly cast: PlotPoint;
  readonly castPlusMinusRadius: number;
  readonly toleranceRadius: number;
  readonly planckianPath: string;
  readonly daylightPath: string;
  /** SVG path data of one short dot a cell, to be stroked with round caps. */
  readonly cloudPath: string;
  readonly words: readonly PlaneWord[];
  /** Drawing units for 0.001 in u′v′. */
  readonly unitPerThousandth: number;
}

const WHITE: UvPrime = xyToUvPrime(D65);

/** The cast, its tolerance, the cells and the loci of natural whites, in a square of the given size. */
export function castPlane(reading: Reading, tolerance: Tolerance, loci: WhiteLoci, size: number): CastPlane {
  const { cast, tint } = reading;
  const cells: UvPrime[] = [];
  tint.uPrimeMap.forEach((uPrime, i) => {
    const vPrime = tint.vPrimeMap[i];
    if (uPrime !== null && vPrime !== null && vPrime !== undefined) cells.push({ uPrime, vPrime });
  });
  const farthest = cells.reduce((most, cell) => Math.max(most, fromWhite(cell)), cast.deltaUv);
  const halfSpan = Math.max(tolerance.castDeltaUv * 1.7, farthest * 1.2);
  const scale = size / 2 / halfSpan;
  const place = ({ uPrime, vPrime }: UvPrime): PlotPoint => [
    size / 2 + (uPrime - WHITE.uPrime) * scale,
    size / 2 - (vPrime - WHITE.vPrime) * scale,
  ];
  const near = (point: UvPrime) => fromWhite(point) < halfSpan * 2;
  return {
    size,
    white: place(WHITE),
    cast: place(cast),
    castPlusMinusRadius: cast.plusMinusDeltaUv * scale,
    toleranceRadius: tolerance.castDeltaUv * scale,
    planckianPath: linePath([loci.planckian.filter(near).map(place)]),
    daylightPath: linePath([loci.daylight.filter(near).map(place)]),
    cloudPath: dotsAt(cells.map(place)),
    words: planeWords(loci.planckian, size),
    unitPerThousandth: scale / 1000,
  };
}

function fromWhite({ uPrime, vPrime }: UvPrime): number {
  return Math.hypot(uPrime - WHITE.uPrime, vPrime - WHITE.vPrime);
}

/**
 * Strokes too short to see, which round caps make dots. On whole units: cells whose dots would cover one another are
 * drawn once, since a browser takes a sixth of a second to fill thousands of overlapping ones, at every redrawing.
 */
function dotsAt(points: readonly PlotPoint[]): string {
  const drawn = new Set<number>(); // of numbers: to write thousands of strings first takes longer than all the rest
  let path = '';
  for (const [x, y] of points) {
    const [across, down] = [Math.round(x), Math.round(y)];
    const place = across * 10_000 + down;
    if (drawn.has(place)) continue;
    drawn.add(place);
    path += `M${across},${down}h0.1`;
  }
  return path;
}

/** Words where the locus through the white runs (warmer, cooler) and across it (greener, more magenta). */
function planeWords(planckian: readonly UvPrime[], size: number): readonly PlaneWord[] {
  let nearest = 1;
  for (let i = 1; i + 1 < planckian.length; i++)
    if (fromWhite(planckian[i]!) < fromWhite(planckian[nearest]!)) nearest = i;
  const cooler = planckian[nearest - 1];
  const warmer = planckian[nearest + 1];
  if (cooler === undefined || warmer === undefined) return [];
  const du = warmer.uPrime - cooler.uPrime;
  const dv = warmer.vPrime - cooler.vPrime;
  return [
    wordOutside('warmer', du, dv, size),
    wordOutside('cooler', -du, -dv, size),
    wordOutside('greener', -dv, du, size),
    wordOutside('more magenta', dv, -du, size),
  ];
}

/** Distance of a word's middle from the square, and room that a letter takes along it. */
export const WORD_DISTANCE = 13;
const LETTER_ROOM = 8;

function wordOutside(text: string, du: number, dv: number, size: number): PlaneWord {
  const middle = size / 2;
  const reach = middle / Math.max(Math.abs(du), Math.abs(dv));
  const half = (text.length * LETTER_ROOM) / 2;
  const along = (place: number) => Math.min(size - half, Math.max(half, place));
  const outside = (direction: number) => (direction > 0 ? size + WORD_DISTANCE : -WORD_DISTANCE);
  if (Math.abs(dv) >= Math.abs(du))
    return { text, at: [along(middle + du * reach), outside(-dv)], angleDeg: 0 };
  return { text, at: [outside(du), along(middle - dv * reach)], angleDeg: -90 };
}
