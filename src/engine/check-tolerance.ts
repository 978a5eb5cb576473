import type { Tolerance } from './tolerance.ts';

const MEASURES: readonly Tolerance['measure'][] = [
  'range',
  'from-centre',
  'nine-point-min-max',
  'min-over-mean',
];

/**
 * @throws TypeError where a tolerance is none; RangeError where it has a limit that is not a positive number, or an unknown measure.
 */
export function checkTolerance(tolerance: Tolerance): void {
  if (typeof tolerance !== 'object' || tolerance === null)
    throw new TypeError(`a tolerance is an object with a limit and a measure, not ${String(tolerance)}`);
  for (const name of ['limit', 'tintDeltaUv', 'castDeltaUv'] as const) {
    const value = tolerance[name];
    if (!(Number.isFinite(value) && value > 0))
      throw new RangeError(`a tolerance’s ${name} must be above 0, not ${value}`);
  }
  if (!MEASURES.includes(tolerance.measure)) {
    throw new RangeError(
      `a tolerance is measured by one of ${MEASURES.join(', ')}, not by "${tolerance.measure}"`,
    );
  }
}
