import { xyToUvPrime } from '../../../src/engine/colour/chromaticity.ts';
import { cctAndDuv } from '../../../src/engine/colour/correlated-colour-temperature.ts';
import { planckianDerivative } from '../../../src/engine/colour/planckian-locus.ts';
import { D65 } from '../../../src/engine/colour/white-points.ts';

const WHITE = xyToUvPrime(D65);
const WHITE_MIRED = cctAndDuv(WHITE.uPrime, WHITE.vPrime)!.mired;

/** The tint of a field that is so many mired warmer than white at each place, as a step in u′, v′. */
export function tintByMired(mired: (x: number, y: number) => number) {
  const along = planckianDerivative(WHITE_MIRED, 1);
  return (x: number, y: number): readonly [du: number, dv: number] => {
    const wanted = mired(x, y);
    let step = wanted;
    const tint = () => [step * along.u, step * 1.5 * along.v] as const;
    for (let turn = 0; turn < 4; turn++) {
      const [du, dv] = tint();
      step += wanted - (cctAndDuv(WHITE.uPrime + du, WHITE.vPrime + dv)!.mired - WHITE_MIRED);
    }
    return tint();
  };
}
