import type { LensFall } from './lit-set.ts';
import type { LightAt } from './seen-light.ts';

/**
 * Share of the light that a lens lets through, 1 in the middle. Its natural fall goes nearly as r² (cos⁴ of a small
 * angle), its mechanical vignetting grows later, here as r⁴; r is 1 in the corners of the frame.
 */
export function lensShare({ squareEv, fourthEv }: Omit<LensFall, 'corner'>, aspect: number): LightAt {
  const cornerSquare = (1 + aspect * aspect) / 4;
  return (x, y) => {
    const square = (x * x + y * y) / cornerSquare;
    return 2 ** (-square * (squareEv + fourthEv * square));
  };
}
