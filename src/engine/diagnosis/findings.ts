import type { Finding } from '../reading.ts';
import { bands } from './bands.ts';
import { brightMiddle } from './bright-middle.ts';
import { cannotTell, rivalsTold } from './cannot-tell.ts';
import { broughtByLights, cast, tintedAllOver } from './cast.ts';
import { causes, isBelieved } from './causes.ts';
import { clipped } from './clipped.ts';
import { creases } from './creases.ts';
import type { DiagnosisInput } from './diagnosis-input.ts';
import { limitStops } from './limit-stops.ts';
import { misfittingFrame } from './misfitting-frame.ts';
import { notBlank } from './not-blank.ts';
import { rimInView } from './rim-in-view.ts';
import { slope } from './slope.ts';
import { specks } from './specks.ts';
import { tooDark } from './too-dark.ts';
import { weave } from './weave.ts';

/** A fall of light that causes explain to this share is not described beside them. Own choice. */
const MOSTLY = 0.7;

/**
 * What is wrong with the light, strongest first. What makes the other figures doubtful leads (something in the frame,
 * clipped, too dark); the rest goes by its size against the tolerance, so that stops and colour can be weighed
 * against each other. Where causes are known, the falloff that follows from them is not told beside them.
 */
export function findings(input: DiagnosisInput): Finding[] {
  const { set } = input;
  // a set that does not follow the frame has nothing to say
  const misfit = misfittingFrame(input);
  const believed = { ...input, set: isBelieved(input) ? set : null };
  const untold = rivalsTold(believed);
  const known = [
    ...causes(believed, new Set(untold.flatMap((pair) => pair.causes))),
    ...cannotTell(believed),
  ];
  const explainedEv = known.reduce((sum, { ev }) => sum + Math.max(0, ev ?? 0), 0);
  const described = [slope(input), brightMiddle(input)].filter(
    (found) => found !== null && explainedEv < MOSTLY * (found.ev ?? 0),
  );
  const colour = [tintedAllOver(believed) ?? cast(input)];
  const all = ranked([...known, ...described, ...colour, ...textures(input)], believed);
  return [...doubts(input), ...(misfit === null ? [] : [misfit]), ...all];
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
