/** A repeatable source of random numbers, so that no stage needs one of its own. */
export interface SeededRandom {
  /** Uniform in [0, 1). */
  uniform(): number;
  /** Standard normal. */
  normal(): number;
}

/**
 * Starts a generator from any 32-bit seed.
 * Source: G. Marsaglia, "Xorshift RNGs", J. Stat. Software 8(14), 2003 (the 128-bit generator), its state spread
 * from the seed by an integer hash; normals by Marsaglia's polar method (SIAM Rev. 6, 1964).
 */
export function seededRandom(seed: number): SeededRandom {
  let hash = seed | 0;
  const spread = () => {
    hash = (hash + 0x9e3779b9) | 0;
    let z = hash;
    z = Math.imul(z ^ (z >>> 16), 0x85ebca6b);
    z = Math.imul(z ^ (z >>> 13), 0xc2b2ae35);
    return (z ^ (z >>> 16)) | 0;
  };
  let x = spread();
  let y = spread();
  let z = spread();
  let w = spread() | 1; // the state may not be all zero
  const uniform = () => {
    const t = x ^ (x << 11);
    x = y;
    y = z;
    z = w;
    w = w ^ (w >>> 19) ^ t ^ (t >>> 8);
    return (w >>> 0) / 4294967296;
  };
  let spare = Number.NaN;
  const normal = () => {
    if (!Number.isNaN(spare)) {
      const value = spare;
      spare = Number.NaN;
      return value;
    }
    for (;;) {
      const a = 2 * uniform() - 1;
      const b = 2 * uniform() - 1;
      const s = a * a + b * b;
      if (s > 0 && s < 1) {
        const scale = Math.sqrt((-2 * Math.log(s)) / s);
        spare = b * scale;
        return a * scale;
      }
    }
  };
  return { uniform, normal };
}
