import type { Finding } from '../reading.ts';
import { confidenceOf } from './confidence.ts';
import type { DiagnosisInput } from './diagnosis-input.ts';
import { fallInSpread, falloffMap } from './falloff-plane.ts';
import { stopsInWords } from './figures-in-words.ts';
import { evaluateLegendreSurface, fitLegendreSurface } from './legendre-surface.ts';
import { leastToldEv } from './worth-telling.ts';

/** What a quadratic surface leaves over hangs together over about this many cells (blocks of 8 × 8). */
const CELLS_TOGETHER = 64;

/**
 * The middle is hotter than the rim all round: the spread's fall when the quadratic part, which opens downwards in
 * every direction, is taken out. A valley, a ridge, a curve within its ± or too small against the tolerance is none.
 */
export function brightMiddle({ measurement, tolerance }: DiagnosisInput): Finding | null {
  const { columns, rows } = measurement.grid;
  const values = falloffMap(measurement.falloff.evMap);
  const surface = fitLegendreSurface({ columns, rows, values }, 2);
  if (surface === null || surface.degree < 2) return null;
  const [, , , across, twist, down] = surface.coefficients as unknown as [
    number,
    number,
    number,
    number,
    number,
    number,
  ];
  const fitted = evaluateLegendreSurface(surface, columns, rows);
  let squares = 0;
  let count = 0;
  for (let cell = 0; cell < values.length; cell++) {
    if (Number.isNaN(values[cell]!)) continue;
    squares += (values[cell]! - fitted[cell]!) ** 2;
    count++;
  }
  // P2 has mean square 1/5 over the region and falls by 1.5 from its middle to its edge.
  const deviation = Math.sqrt(((squares / count) * 5 * CELLS_TOGETHER) / Math.max(count, CELLS_TOGETHER));
  const oneWayPlusMinus = 1.96 * 1.5 * deviation;
  const bowl = 9 * across * down - twist * twist; // determinant of the second derivatives
  if (!(-1.5 * across > oneWayPlusMinus && -1.5 * down > oneWayPlusMinus && bowl > 0)) return null;

  const quadratic = evaluateLegendreSurface(
    { degree: 2, coefficients: Float64Array.of(0, 0, 0, across, twist, down) },
    columns,
    rows,
  );
  const ev = fallInSpread(values, quadratic);
  const plusMinus = Math.hypot(
    Math.SQRT2 * oneWayPlusMinus,
    measurement.falloff.cellPlusMinusEv * Math.SQRT2,
  );
  if (!(ev > Math.max(plusMinus, leastToldEv(measurement, tolerance)))) return null;
  const corners = -1.5 * (across + down); // mean over the four, against the middle
  return {
    kind: 'bright-middle',
    confidence: confidenceOf(ev, plusMinus),
    ev,
    mired: null,
    at: measurement.falloff.brightestAt,
    says: `The middle is hottest and the rim is down all round, the corners by about ${stopsInWords(corners)}.`,
    lengthsMm: null,
  };
}
