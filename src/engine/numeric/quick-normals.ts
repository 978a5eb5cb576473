import type { SeededRandom } from './seeded-random.ts';

const BITS = 15;
const SIZE = 1 << BITS;

/**
 * Fills with standard normals picked at random from 32 768 that were drawn once and scaled to mean 0 and variance 1: two for each
 * uniform number, several times as fast as drawing them one by one. The tails end near ±4.
 */
export function quickNormals(random: SeededRandom): (into: Float64Array) => void {
  const table = Float64Array.from({ length: SIZE }, () => random.normal());
  const mean = table.reduce((sum, value) => sum + value, 0) / SIZE;
  const variance = table.reduce((sum, value) => sum + (value - mean) ** 2, 0) / SIZE;
  for (let i = 0; i < SIZE; i++) table[i] = (table[i]! - mean) / Math.sqrt(variance);
  let spare = -1;
  return (into) => {
    let i = 0;
    if (spare >= 0 && into.length > 0) {
      into[i++] = table[spare]!;
      spare = -1;
    }
    for (; i < into.length; i += 2) {
      const bits = (random.uniform() * (SIZE * SIZE)) | 0;
      const high = bits >> BITS;
      const low = bits & (SIZE - 1);
      into[i] = table[high]!;
      if (i + 1 < into.length) into[i + 1] = table[low]!;
      else spare = low;
    }
  };
}
