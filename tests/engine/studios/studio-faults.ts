import type { StudioScore } from './score-studio.ts';

/** A line for every studio whose strongest cause was missed, or that was told of a cause that is not there. */
export function studioFaults(scores: readonly StudioScore[]): string[] {
  return scores.flatMap(({ seed, lead, named, falseCauses, falseTextures }) => {
    const told = [...falseCauses.told, ...falseTextures.told];
    const faults = [
      ...(named === 'not' ? [`${lead} not named first`] : []),
      ...(told.length > 0 ? [`${told.join(', ')} told though not there`] : []),
    ];
    return faults.length > 0 ? [`measured: studio ${seed}: ${faults.join('; ')}`] : [];
  });
}
