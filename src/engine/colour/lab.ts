import { xyToXyz } from './chromaticity.ts';
import { D65 } from './white-points.ts';

/** CIE 1976 L*a*b*. */
export interface Lab {
  /** L*, 0 to 100. */
  readonly lightness: number;
  readonly a: number;
  readonly b: number;
}

type Xyz = readonly [x: number, y: number, z: number];

const D65_XYZ: Xyz = xyToXyz(D65);

/**
 * L*a*b* of a tristimulus value against a white of the same scale. NaN in, NaN out.
 * Source: CIE e-ILV 17-23-076 (ISO/CIE 11664-4).
 */
export function xyzToLab([x, y, z]: Xyz, [whiteX, whiteY, whiteZ]: Xyz): Lab {
  const fx = cubeRootWithStraightFoot(x / whiteX);
  const fy = cubeRootWithStraightFoot(y / whiteY);
  const fz = cubeRootWithStraightFoot(z / whiteZ);
  return { lightness: 116 * fy - 16, a: 500 * (fx - fy), b: 200 * (fy - fz) };
}

/**
 * L*a*b* of a chromaticity brought to L* 90 against D65, so that exposure changes nothing. NaN in, NaN out.
 */
export function chromaticityToLab90(uPrime: number, vPrime: number): Lab {
  const y = ((90 + 16) / 116) ** 3;
  const x = (y * 9 * uPrime) / (4 * vPrime);
  const z = (y * (12 - 3 * uPrime - 20 * vPrime)) / (4 * vPrime);
  return xyzToLab([x, y, z], D65_XYZ);
}

function cubeRootWithStraightFoot(t: number): number {
  return t > (6 / 29) ** 3 ? Math.cbrt(t) : (841 / 108) * t + 4 / 29;
}
