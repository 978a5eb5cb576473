import type { SetSpill } from './lit-set.ts';
import type { LightAt } from './seen-light.ts';

/** The room's own light on the background: the same everywhere, or sloping by so many stops per frame width. */
export function spillLight({ levelEv, rightEv, downEv }: SetSpill): LightAt {
  return (x, y) => 2 ** (levelEv + rightEv * x + downEv * y);
}
