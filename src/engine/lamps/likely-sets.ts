import { choleskyFactor } from '../numeric/cholesky-factor.ts';
import { type SeededRandom, seededRandom } from '../numeric/seeded-random.ts';
import type { FittedSet, Mode } from './fit-set.ts';
import type { LitSet } from './lit-set.ts';

/**
 * Sets drawn from what the frames and the expectations leave possible, as likely as they are; the first is the best
 * fit. The same fit always draws the same.
 */
export function likelySets({ modes, set }: FittedSet, count: number): LitSet[] {
  const random = seededRandom(modes[0]!.point.length);
  const drawn = modes.flatMap((mode, i) => {
    const before = modes.slice(0, i).reduce((sum, { weight }) => sum + weight, 0);
    const share = Math.round((before + mode.weight) * (count - 1)) - Math.round(before * (count - 1));
    return drawnSets(mode, share, random);
  });
  return [set, ...drawn];
}

function drawnSets({ model, point, information }: Mode, count: number, random: SeededRandom): LitSet[] {
  const size = point.length;
  const factor = choleskyFactor(information, size);
  return Array.from({ length: count }, () => {
    // information L Lᵀ: where Lᵀ d is a draw of independent normals, d has the inverse as its covariance
    const off = Float64Array.from({ length: size }, () => random.normal());
    for (let i = size - 1; i >= 0; i--) {
      let sum = off[i]!;
      for (let j = i + 1; j < size; j++) sum -= factor[j * size + i]! * off[j]!;
      off[i] = sum / factor[i * size + i]!;
    }
    return model.setAt(point.map((value, i) => value + off[i]!));
  });
}
