import { bradfordMatrix } from '../colour/bradford.ts';
import { type ChromaticityXy, xyToUvPrime, xyToXyz } from '../colour/chromaticity.ts';
import { cctAndDuv } from '../colour/correlated-colour-temperature.ts';
import { rgbToXyzMatrix } from '../colour/rgb-to-xyz-matrix.ts';
import { SRGB } from '../colour/srgb-space.ts';
import { D50, D65 } from '../colour/white-points.ts';
import { balanceOf } from '../intake/develop-raw.ts';
import type { DngCalibration } from '../intake/dng-tags.ts';
import type { RawColour } from '../intake/stored-raw.ts';
import {
  invertMatrix3,
  type Matrix3,
  multiplyMatrix3,
  transformVector3,
  type Vector3,
} from '../numeric/matrix3.ts';

/** A camera's own colours, balanced so that what was to be neutral is red = green = blue. */
export interface BalancedColour {
  /** Balanced linear RGB to XYZ adapted to D65; 1, 1, 1 gives D65, Y = 1. */
  readonly toXyz: Matrix3;
  /** What red, green and blue are multiplied by; the least is 1, so that no light that is not clipped is over 1 in all. */
  readonly multipliers: Vector3;
  /** One sentence: what the balance and the matrix come from. */
  readonly says: string;
}

/** Kelvin by Exif's number of a light source; source: DNG specification 1.6 and Exif, LightSource. */
const ILLUMINANT_KELVIN: Readonly<Record<number, number>> = {
  1: 5500,
  2: 4230,
  3: 2850,
  4: 5500,
  9: 5500,
  10: 6500,
  11: 7500,
  12: 6430,
  13: 5000,
  14: 4150,
  15: 3450,
  17: 2856,
  18: 4874,
  19: 6774,
  20: 5503,
  21: 6504,
  22: 7504,
  23: 5003,
  24: 3200,
};

/**
 * Makes a camera's colours measurable: the as-shot neutral reads as white, and the camera's matrix leads from there to
 * XYZ, as the DNG specification has it (chapter 6, "Mapping camera color space to CIE XYZ space").
 */
export function rawColour(colour: RawColour): BalancedColour {
  try {
    return balanced(colour);
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    return balanced({ ...colour, calibrations: [] }); // a matrix without an inverse is no matrix
  }
}

function balanced({ neutral, whiteXy, calibrations }: RawColour): BalancedColour {
  if (calibrations.length === 0) return withoutMatrix(neutral);
  const white = neutral ? whiteOf(neutral, calibrations) : (whiteXy ?? D65);
  const { xyzToCamera, forward, balance } = calibrationAt(white, calibrations);
  const own = neutral ?? transformVector3(xyzToCamera, xyToXyz(white));
  const balances: Matrix3 = [own[0], 0, 0, 0, own[1], 0, 0, 0, own[2]];
  const toXyz = forward
    ? multiplyMatrix3(bradfordMatrix(D50, D65), throughForward(forward, balance, own, balances))
    : multiplyMatrix3(bradfordMatrix(white, D65), multiplyMatrix3(invertMatrix3(xyzToCamera), balances));
  if (!toXyz.every(Number.isFinite) || !(toXyz[3] + toXyz[4] + toXyz[5] > 0)) return withoutMatrix(neutral);
  const says =
    neutral || whiteXy
      ? 'Its colours are the camera’s own, by the white balance and the camera’s matrix that the file gives; the cast is told against that balance.'
      : 'Its colours are the camera’s own, by the camera’s matrix; the file names no white balance, so the cast is told against daylight (D65).';
  return { toXyz: toWhite(toXyz), multipliers: balanceOf(own), says };
}

/** Without a matrix colours can't be named, only balanced; sRGB's primaries stand in. */
function withoutMatrix(neutral: Vector3 | null): BalancedColour {
  return {
    toXyz: rgbToXyzMatrix(SRGB.primaries, SRGB.white),
    multipliers: balanceOf(neutral ?? [1, 1, 1]),
    says: neutral
      ? 'No matrix is known for this camera: its own red, green and blue, by the white balance of the file, are taken for those of sRGB, so casts and tints are rough.'
      : 'Neither a matrix nor a white balance is known for this camera: its own red, green and blue are taken for those of sRGB, so casts and tints are rough.',
  };
}

/** The balance is undone by the calibration before the forward matrix takes over. */
function throughForward(forward: Matrix3, balance: Matrix3, own: Vector3, balances: Matrix3): Matrix3 {
  const back = invertMatrix3(balance);
  const [red, green, blue] = transformVector3(back, own);
  const scaled = multiplyMatrix3(forward, [1 / red, 0, 0, 0, 1 / green, 0, 0, 0, 1 / blue]);
  return multiplyMatrix3(scaled, multiplyMatrix3(back, balances));
}

/** Rounded matrices miss white by a little; X, Y and Z are scaled so that 1, 1, 1 is D65 itself. */
function toWhite(toXyz: Matrix3): Matrix3 {
  const got = transformVector3(toXyz, [1, 1, 1]);
  const wanted = xyToXyz(D65);
  return toXyz.map(
    (value, i) => (value * wanted[Math.floor(i / 3)]!) / got[Math.floor(i / 3)]!,
  ) as unknown as Matrix3;
}

/** The white that a camera sees as this neutral; the matrix depends on the white, so it is sought step by step. */
function whiteOf(neutral: Vector3, calibrations: readonly DngCalibration[]): ChromaticityXy {
  let white: ChromaticityXy = D50;
  for (let step = 0; step < 30; step++) {
    const [x, y, z] = transformVector3(
      invertMatrix3(calibrationAt(white, calibrations).xyzToCamera),
      neutral,
    );
    const next: ChromaticityXy = [x / (x + y + z), y / (x + y + z)];
    if (!(next[0] > 0 && next[1] > 0 && next[0] + next[1] < 1)) return white;
    const moved = Math.hypot(next[0] - white[0], next[1] - white[1]);
    white = next;
    if (moved < 1e-9) break;
  }
  return white;
}

/** Between two calibrations by reciprocal temperature, beyond them the nearer one. */
function calibrationAt(white: ChromaticityXy, calibrations: readonly DngCalibration[]): DngCalibration {
  const [first, second] = calibrations as readonly [DngCalibration, DngCalibration?];
  if (!second) return first;
  const own = (of: DngCalibration) => 1e6 / (ILLUMINANT_KELVIN[of.illuminant] ?? Number.NaN);
  const { uPrime, vPrime } = xyToUvPrime(white);
  const here = cctAndDuv(uPrime, vPrime)?.mired ?? Number.NaN;
  const share = (here - own(first)) / (own(second) - own(first));
  if (!Number.isFinite(share)) return first;
  const s = Math.max(0, Math.min(1, share));
  const mixed = (a: Matrix3, b: Matrix3) =>
    a.map((value, i) => value + s * (b[i]! - value)) as unknown as Matrix3;
  return {
    illuminant: 0,
    xyzToCamera: mixed(first.xyzToCamera, second.xyzToCamera),
    forward: first.forward && second.forward && mixed(first.forward, second.forward),
    balance: mixed(first.balance, second.balance),
  };
}
