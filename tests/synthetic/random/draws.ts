import type { SeededRandom } from '../../../src/engine/numeric/seeded-random.ts';

/** Draws from one repeatable source, in the words in which sets are described. */
export interface Draws {
  between(low: number, high: number): number;
  either<T>(things: readonly T[]): T;
  /** True so often, 0 to 1. */
  chance(share: number): boolean;
  sign(): 1 | -1;
}

export function drawsFrom(random: SeededRandom): Draws {
  return {
    between: (low, high) => low + (high - low) * random.uniform(),
    either: (things) => things[Math.floor(random.uniform() * things.length)]!,
    chance: (share) => random.uniform() < share,
    sign: () => (random.uniform() < 0.5 ? -1 : 1),
  };
}
