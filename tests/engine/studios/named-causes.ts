import type { Finding } from '../../../src/engine/reading.ts';
import type { PlantedKind } from '../../synthetic/random/planted-cause.ts';

/** A finding, and the causes that it names: one, or both of two that it says it cannot tell apart. */
export interface NamedCauses {
  readonly finding: Finding;
  readonly causes: readonly PlantedKind[];
}

/** Findings that describe the light, doubt the frame or are finer than a cell; the rest name a cause each. */
const NAME_NONE: ReadonlySet<Finding['kind']> = new Set([
  'slope',
  'bright-middle',
  'cast',
  'not-blank',
  'clipped',
  'too-dark',
  'creases',
  'weave',
  'specks',
]);

/** What the sentences of `cannot-tell` name, by their own words. */
const UNTOLD: readonly (readonly [RegExp, readonly PlantedKind[]])[] = [
  [/stands to one side from one that is aimed to that side/, ['off-centre', 'aimed-off']],
  [/stands too close from a sheet that lets light straight through/, ['too-close', 'hot-spot']],
  [/the lens’s falloff from the light’s/, ['lens-falloff', 'too-close']],
  [/the lens’s falloff from the hot spot of the sheet/, ['lens-falloff', 'hot-spot']],
  [/the lens’s falloff from the panel’s/, ['lens-falloff', 'hot-spot']],
  [/Light of the room in the lights’ own colour/, ['stray-light']],
];

/** The findings that name causes, in their order, with the causes they name. */
export function namedCauses(findings: readonly Finding[]): NamedCauses[] {
  return findings
    .filter(({ kind }) => !NAME_NONE.has(kind))
    .map((finding) => ({ finding, causes: causesOf(finding) }));
}

function causesOf({ kind, says }: Finding): readonly PlantedKind[] {
  if (kind !== 'cannot-tell') return [kind as PlantedKind];
  const untold = UNTOLD.find(([words]) => words.test(says));
  if (untold === undefined) throw new Error(`no cause is known that this names: ${says}`);
  return untold[1];
}
