import type { SeededRandom } from '../../src/engine/numeric/seeded-random.ts';

/** Below this mean the Poisson distribution is drawn exactly, above it as a rounded normal. */
const NORMAL_ABOVE = 50;

const STEPS = 1 << 16;

let quantiles: Float64Array | null = null;

/**
 * Standard normals picked from a table of 65 536 equally likely quantiles, two for each 32-bit random number:
 * a tenth of the cost of the polar method. The table is symmetric and scaled to variance 1; it ends at ±4.3.
 */
export function cheapNormal(random: SeededRandom): () => number {
  quantiles ??= normalQuantiles();
  const table = quantiles;
  let second = -1;
  return () => {
    if (second >= 0) {
      const value = table[second]!;
      second = -1;
      return value;
    }
    const bits = random.uniform() * 4294967296;
    const high = Math.floor(bits / STEPS);
    second = bits - high * STEPS;
    return table[high]!;
  };
}

/** Electrons counted where `mean` are expected: a Poisson number, by a rounded normal for large means. */
export function poissonElectrons(mean: number, normal: () => number, random: SeededRandom): number {
  if (mean > NORMAL_ABOVE) return Math.round(mean + Math.sqrt(mean) * normal());
  const limit = Math.exp(-mean);
  let count = -1;
  let product = 1;
  do {
    product *= random.uniform();
    count++;
  } while (product > limit);
  return count;
}

/** Marches along the normal density and notes where the middle of each equal share of it lies. */
function normalQuantiles(): Float64Array {
  const table = new Float64Array(STEPS);
  const step = 1e-5;
  const density = (z: number) => Math.exp(-0.5 * z * z) / Math.sqrt(2 * Math.PI);
  let share = 0.5;
  let z = 0;
  let here = density(0);
  let sumOfSquares = 0;
  for (let index = STEPS / 2; index < STEPS; index++) {
    const wanted = (index + 0.5) / STEPS;
    let there = density(z + step);
    let next = share + 0.5 * (here + there) * step;
    while (next < wanted) {
      share = next;
      z += step;
      here = there;
      there = density(z + step);
      next = share + 0.5 * (here + there) * step;
    }
    const value = z + (step * (wanted - share)) / (next - share);
    table[index] = value;
    table[STEPS - 1 - index] = -value;
    sumOfSquares += 2 * value * value;
  }
  const scale = Math.sqrt(STEPS / sumOfSquares);
  return table.map((value) => value * scale);
}
