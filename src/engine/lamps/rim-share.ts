import type { SetRim } from './lit-set.ts';
import type { LightAt } from './seen-light.ts';

/** Share of the light that a dark rim in view leaves: all of it inside, less where it reaches in. */
export function rimShare(rim: SetRim, aspect: number): LightAt {
  const halfHeight = aspect / 2;
  const dark = 1 - 2 ** -rim.lossEv;
  const covered = (inward: number, reach: number) => 1 / (1 + Math.exp((6 * (inward - reach)) / rim.soft));
  return (x, y) => {
    return (
      (1 - dark * covered(x + 0.5, rim.left)) *
      (1 - dark * covered(0.5 - x, rim.right)) *
      (1 - dark * covered(y + halfHeight, rim.top)) *
      (1 - dark * covered(halfHeight - y, rim.bottom))
    );
  };
}
