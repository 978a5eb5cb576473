/**
 * The nearest curve, by least squares, that never falls: neighbours that fall are pooled.
 * Source: R. E. Barlow, D. J. Bartholomew, J. M. Bremner, H. D. Brunk, "Statistical Inference under Order
 * Restrictions", Wiley 1972 (pooling of adjacent violators; cited from memory).
 */
export function risingCurve(values: ArrayLike<number>): number[] {
  const pools: { mean: number; size: number }[] = [];
  for (let i = 0; i < values.length; i++) {
    let pool = { mean: values[i]!, size: 1 };
    for (let before = pools.at(-1); before && before.mean > pool.mean; before = pools.at(-1)) {
      const size = before.size + pool.size;
      pool = { mean: (before.mean * before.size + pool.mean * pool.size) / size, size };
      pools.pop();
    }
    pools.push(pool);
  }
  return pools.flatMap(({ mean, size }) => new Array<number>(size).fill(mean));
}
