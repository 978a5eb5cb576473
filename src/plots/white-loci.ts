import { uv1960ToUvPrime, xyToUvPrime } from '../engine/colour/chromaticity.ts';
import { daylightXy } from '../engine/colour/daylight-locus.ts';
import { miredToKelvin } from '../engine/colour/mired.ts';
import { planckianUv1960 } from '../engine/colour/planckian-locus.ts';
import type { WhiteLoci } from './cast-plane.ts';

const STEP_MIRED = 2;

/** The Planckian locus from 25 000 K to 2000 K and the daylight locus from 25 000 K to 4000 K, cool to warm. */
export function whiteLoci(): WhiteLoci {
  return {
    planckian: miredSteps(40, 500).map((mired) => uv1960ToUvPrime(planckianUv1960(mired))),
    daylight: miredSteps(40, 250).map((mired) => xyToUvPrime(daylightXy(miredToKelvin(mired)))),
  };
}

function miredSteps(from: number, to: number): number[] {
  return Array.from({ length: (to - from) / STEP_MIRED + 1 }, (_, i) => from + i * STEP_MIRED);
}
