import type { Finding } from '../reading.ts';
import { bands } from './bands.ts';
import { brightMiddle } from './bright-middle.ts';
import { cannotTell } from './cannot-tell.ts';
import { broughtByLights, cast, tintedAllOver } from './cast.ts';
import { causes } from './causes.ts';
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
import { leastToldEv } from './worth-telling.ts';

/**
 * What is wrong with the light, strongest first. What makes the other figures doubtful leads (something in the frame,
 * clipped, too dark); the rest goes by its size against the tolerance, so that stops and colour can be weighed
 * against each other. Where causes are known, the falloff that follows from them is not told beside them.
 */
export function findings(input: DiagnosisInput): Finding[] {
  const known = [...causes(input), ...cannotTell(input)];
  const isExplained = known.some(({ ev }) => (ev ?? 0) > leastToldEv(input.measurement, input.tolerance));
  const described = isExplained ? [] : [slope(input), brightMiddle(input)];
  const colour = [tintedAllOver(input) ?? cast(input)];
  return [...doubts(input), ...ranked([...known, ...described, ...colour, ...textures(input)], input)];
}

/** What can be said without a model of the set: how the light falls off, not why. Strongest first, as above. */
export function plainFindings(input: DiagnosisInput): Finding[] {
  const described = [slope(input), brightMiddle(input), cast(input)];
  return [...doubts(input), ...ranked([...described, ...textures(input)], input)];
}

const doubts = (input: DiagnosisInput) =>
  [notBlank(input), clipped(input), tooDark(input)].filter((found) => found !== null);

const textures = (input: DiagnosisInput) => [
  rimInView(input),
  bands(input),
  creases(input),
  weave(input),
  specks(input),
];

function ranked(found: readonly (Finding | null)[], input: DiagnosisInput): Finding[] {
  return found.filter((each) => each !== null).sort((a, b) => strength(b, input) - strength(a, input));
}

function strength(found: Finding, { measurement, set, tolerance }: DiagnosisInput): number {
  const { castDeltaUv, tintDeltaUv } = tolerance;
  if (found.kind === 'cast') return measurement.cast.deltaUv / castDeltaUv;
  if (found.kind === 'tinted-all-over') return broughtByLights(measurement.cast, set!) / castDeltaUv;
  const deltaUv = set?.causes.find(({ cause }) => cause === found.kind)?.deltaUv ?? 0;
  return Math.max((found.ev ?? 0) / limitStops(tolerance), deltaUv / tintDeltaUv);
}
