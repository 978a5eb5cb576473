import type { SeededRandom } from './seeded-random.ts';

const BITS = 15;
const SIZE = 1 << BITS;

/**
 * Standard normals picked at random from 32 768 that were drawn once and scaled to mean 0 and variance 1: two for each
 * uniform number, several times as fast as drawing them one by one. The tails end near ±4.
 */
export function quickNormals(random: SeededRandom): () => number {
  const table = Float64Array.from({ length: SIZE }, () => random.normal());
  const mean = table.reduce((sum, value) => sum + value, 0) / SIZE;
  const variance = table.reduce((sum, value) => sum + (value - mean) ** 2, 0) / SIZE;
  for (let i = 0; i < SIZE; i++) table[i] = (table[i]! - mean) / Math.sqrt(variance);
  let spare = -1;
  return () => {
    if (spare >= 0) {
      const value = table[spare]!;
      spare = -1;
      return value;
    }
    const bits = random.uniform() * (SIZE * SIZE);
    const high = Math.floor(bits / SIZE);
    spare = Math.floor(bits - high * SIZE);
    return table[high]!;
  };
}
