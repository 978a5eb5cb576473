import type { ExposedTake } from '../engine/compare/light-reaching.ts';
import type { HeldTake } from './take.ts';

/** What a take's light is compared by. */
export function exposedTake(take: HeldTake): ExposedTake {
  return { reading: take.reading, light: take.setup.light, meanLevelEv: take.summary.level.meanEv };
}
