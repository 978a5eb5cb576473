export interface Minimum {
  readonly at: Float64Array;
  readonly value: number;
  readonly evaluations: number;
}

/**
 * Minimises a function of a few variables without its derivatives, by a simplex that starts at `start` with edges
 * of length `step` and stops when all its corners lie within `tolerance` of the best one, or after
 * `mostEvaluations`. A value of NaN or Infinity marks a forbidden place.
 *
 * Source: J. Nelder and R. Mead, "A simplex method for function minimization", Computer J. 7, 1965 (cited from
 * memory); coefficients 1, 2, ½, ½.
 *
 * @throws RangeError where the function is not finite at the start.
 */
export function nelderMead(
  objective: (at: Float64Array) => number,
  start: Float64Array,
  step: number,
  tolerance: number,
  mostEvaluations: number,
): Minimum {
  const n = start.length;
  let evaluations = 0;
  const cornerAt = (at: Float64Array) => {
    evaluations++;
    const value = objective(at);
    return { at, value: Number.isNaN(value) ? Number.POSITIVE_INFINITY : value };
  };
  const corners = [cornerAt(start.slice())];
  if (corners[0]!.value === Number.POSITIVE_INFINITY)
    throw new RangeError('the search starts at a forbidden place');
  for (let i = 0; i < n; i++) {
    const at = start.slice();
    at[i]! += step;
    corners.push(cornerAt(at));
  }
  const ordered = () => corners.sort((a, b) => a.value - b.value);
  ordered();
  while (evaluations < mostEvaluations && size() > tolerance) {
    const worst = corners[n]!;
    const reflected = cornerAt(along(1));
    if (reflected.value < corners[0]!.value) {
      const expanded = cornerAt(along(2));
      corners[n] = expanded.value < reflected.value ? expanded : reflected;
    } else if (reflected.value < corners[n - 1]!.value) {
      corners[n] = reflected;
    } else {
      const better = reflected.value < worst.value;
      const contracted = cornerAt(along(better ? 0.5 : -0.5));
      if (contracted.value < Math.min(reflected.value, worst.value)) corners[n] = contracted;
      else shrink();
    }
    ordered();
  }
  return { at: corners[0]!.at, value: corners[0]!.value, evaluations };

  /** From the middle of all corners but the worst, away from the worst by `factor` of their distance. */
  function along(factor: number): Float64Array {
    return corners[n]!.at.map((worst, axis) => {
      let middle = 0;
      for (let i = 0; i < n; i++) middle += corners[i]!.at[axis]! / n;
      return middle + factor * (middle - worst);
    });
  }

  function shrink(): void {
    const best = corners[0]!.at;
    for (let i = 1; i <= n; i++) {
      corners[i] = cornerAt(corners[i]!.at.map((value, axis) => (value + best[axis]!) / 2));
    }
  }

  function size(): number {
    let largest = 0;
    for (const { at } of corners) {
      at.forEach((value, axis) => {
        largest = Math.max(largest, Math.abs(value - corners[0]!.at[axis]!));
      });
    }
    return largest;
  }
}
