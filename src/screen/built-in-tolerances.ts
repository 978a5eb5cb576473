import type { Tolerance } from '../engine/tolerance.ts';

const PRACTICE = 'common practice, no published source';

/**
 * What a frame can be judged by without typing a figure. A published one names its source; where a source speaks of
 * evenness only, its limits for tint and cast are common practice.
 */
export const BUILT_IN_TOLERANCES: readonly Tolerance[] = [
  stopsAcross(0.1, 0.002, 0.003),
  stopsAcross(0.3, 0.004, 0.005),
  stopsAcross(0.5, 0.006, 0.008),
  {
    name: 'within 5 % of the centre',
    source: 'ISO 12646:2013, what a white field should hold; Δu′v′ 0.01 of the centre',
    measure: 'from-centre',
    limit: 0.05,
    tintDeltaUv: 0.01,
    castDeltaUv: 0.01,
  },
  {
    name: 'within 10 % of the centre',
    source: 'ISO 12646:2013, what a white field shall hold; Δu′v′ 0.01 of the centre',
    measure: 'from-centre',
    limit: 0.1,
    tintDeltaUv: 0.01,
    castDeltaUv: 0.01,
  },
  {
    name: 'nine points within 75 %',
    source: 'common practice for flat light sources, known at second hand',
    measure: 'nine-point-min-max',
    limit: 0.75,
    tintDeltaUv: 0.006,
    castDeltaUv: 0.008,
  },
];

/** A third of a stop, to the tenth that meters read. */
export const USUAL_TOLERANCE: Tolerance = BUILT_IN_TOLERANCES[1]!;

function stopsAcross(limit: number, tintDeltaUv: number, castDeltaUv: number): Tolerance {
  return {
    name: `${limit} stop across the frame`,
    source: PRACTICE,
    measure: 'range',
    limit,
    tintDeltaUv,
    castDeltaUv,
  };
}
