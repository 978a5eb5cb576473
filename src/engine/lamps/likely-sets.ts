import { factorBandedCholesky } from '../numeric/banded-cholesky.ts';
import { seededRandom } from '../numeric/seeded-random.ts';
import type { FittedSet } from './fit-set.ts';
import type { LitSet } from './lit-set.ts';

/**
 * Sets drawn from what the frame and the expectations leave possible, as likely as they are; the first is the best
 * fit. The same fit always draws the same.
 */
export function likelySets({ model, point, covariance }: FittedSet, count: number): LitSet[] {
  const size = point.length;
  const factor = lowerFactor(covariance, size);
  const random = seededRandom(size);
  const drawn = Array.from({ length: count - 1 }, () => {
    const normal = Float64Array.from({ length: size }, () => random.normal());
    return model.setAt(
      point.map((value, i) => {
        let sum = value;
        for (let j = 0; j <= i; j++) sum += factor[i * size + j]! * normal[j]!;
        return sum;
      }),
    );
  });
  return [model.setAt(point), ...drawn];
}

/** Square root of a covariance, row-major, lower triangle. */
function lowerFactor(covariance: Float64Array, size: number): Float64Array {
  const halfBandwidth = Math.max(0, size - 1);
  const banded = new Float64Array(size * size);
  for (let i = 0; i < size; i++)
    for (let j = 0; j <= i; j++) banded[(i + 1) * halfBandwidth + j] = covariance[i * size + j]!;
  factorBandedCholesky(banded, { size, halfBandwidth });
  const factor = new Float64Array(size * size);
  for (let i = 0; i < size; i++)
    for (let j = 0; j <= i; j++) factor[i * size + j] = banded[(i + 1) * halfBandwidth + j]!;
  return factor;
}
