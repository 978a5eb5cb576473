import type { Finding } from '../reading.ts';
import type { Tolerance } from '../tolerance.ts';
import { bands } from './bands.ts';
import { brightMiddle } from './bright-middle.ts';
import { cast } from './cast.ts';
import { clipped } from './clipped.ts';
import { creases } from './creases.ts';
import type { DiagnosisInput } from './diagnosis-input.ts';
import { limitStops } from './limit-stops.ts';
import { notBlank } from './not-blank.ts';
import { rimInView } from './rim-in-view.ts';
import { slope } from './slope.ts';
import { specks } from './specks.ts';
import { tooDark } from './too-dark.ts';
import { weave } from './weave.ts';

/**
 * What can be said of a blank frame without a model of its lamps, strongest first. What makes the other figures
 * doubtful leads (something in the frame, clipped, too dark); the rest goes by its size against the tolerance, so
 * that stops and colour can be weighed against each other.
 */
export function findings(input: DiagnosisInput): Finding[] {
  const doubts = [notBlank(input), clipped(input), tooDark(input)].filter((found) => found !== null);
  const sheet = [rimInView(input), bands(input), creases(input), weave(input), specks(input)];
  const causes = [slope(input), brightMiddle(input), cast(input), ...sheet]
    .filter((found) => found !== null)
    .sort((a, b) => strength(b, input) - strength(a, input));
  return [...doubts, ...causes];
}

function strength(found: Finding, { measurement, tolerance }: DiagnosisInput): number {
  if (found.kind === 'cast') return measurement.cast.deltaUv / tolerance.castDeltaUv;
  return stopsAgainst(found.ev ?? 0, tolerance);
}

function stopsAgainst(ev: number, tolerance: Tolerance): number {
  return ev / limitStops(tolerance);
}
