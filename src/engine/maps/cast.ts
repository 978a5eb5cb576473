import { xyzToUvPrime } from '../colour/chromaticity.ts';
import { ciede2000 } from '../colour/ciede2000.ts';
import { chromaticityToLab90 } from '../colour/lab.ts';
import { warmthFromD65 } from '../colour/warmth.ts';
import { type Matrix3, transformVector3 } from '../numeric/matrix3.ts';
import type { Cast } from '../reading.ts';

export interface CastPlusMinus {
  readonly deltaUv: number;
  readonly mired: number;
  readonly duv: number;
}

/** The cast figures of the contract: the region's mean XYZ against the white of the file's colour space. */
export function cast(
  meanXyz: readonly [number, number, number],
  toXyz: Matrix3,
  plusMinus: CastPlusMinus,
): Cast {
  const { uPrime, vPrime } = xyzToUvPrime(...meanXyz);
  const white = xyzToUvPrime(...transformVector3(toXyz, [1, 1, 1]));
  const lab = chromaticityToLab90(uPrime, vPrime);
  const warmth = warmthFromD65(uPrime, vPrime);
  const deltaUPrime = uPrime - white.uPrime;
  const deltaVPrime = vPrime - white.vPrime;
  return {
    uPrime,
    vPrime,
    deltaUPrime,
    deltaVPrime,
    deltaUv: Math.hypot(deltaUPrime, deltaVPrime),
    labA: lab.a,
    labB: lab.b,
    deltaE00: ciede2000(lab, chromaticityToLab90(white.uPrime, white.vPrime)),
    mired: warmth?.mired ?? null,
    duv: warmth?.duv ?? null,
    plusMinusDeltaUv: plusMinus.deltaUv,
    plusMinusMired: Number.isFinite(plusMinus.mired) ? plusMinus.mired : null,
    plusMinusDuv: Number.isFinite(plusMinus.duv) ? plusMinus.duv : null,
  };
}
