import { uvPrimeToXy, xyToXyz, xyzToUvPrime } from '../colour/chromaticity.ts';
import { colourOfWarmth } from '../colour/colour-of-warmth.ts';
import { warmthFromD65 } from '../colour/warmth.ts';
import { invertMatrix3, type Matrix3, transformVector3, type Vector3 } from '../numeric/matrix3.ts';
import type { GainLattice, Profile } from '../profile/profile.ts';

/** Degrees clockwise from "to the right", in square-pixel coordinates. */
const RADIANS = Math.PI / 180;

/**
 * The gains of the profile's straight ramp alone, as anyone would set it by hand: log2 gain of each channel is a plane
 * over the frame, which four nodes hold exactly. Light and colour run along the gradient; what lies at the region's
 * centre does not change but for the level that the profile refers to.
 */
export function rampLattice(profile: Profile, toXyz: Matrix3): GainLattice {
  const { left, top, right, bottom } = profile.madeFrom.region;
  const height = profile.madeFrom.heightPx / profile.madeFrom.widthPx;
  const halfWidth = (right - left) / 2;
  const halfHeight = ((bottom - top) / 2) * height;
  const { gradient, neutral } = profile;
  const angle = (gradient.angleDeg ?? 0) * RADIANS;
  const [unitRight, unitDown] = [Math.cos(angle), Math.sin(angle)];
  const length = 2 * (Math.abs(unitRight) * halfWidth + Math.abs(unitDown) * halfHeight);
  const ev = gradient.angleDeg === null ? 0 : gradient.ev;
  const tint = tintOf(gradient, neutral, toXyz);
  const level = levelOf(profile, (ev / length) * unitRight, (ev / length) * unitDown, halfWidth, halfHeight);
  const nodes = (channel: 0 | 1 | 2) =>
    [0, 1].flatMap((y) =>
      [0, 1].map((x) => {
        const across = x - (left + right) / 2;
        const along = (across * unitRight + (y - (top + bottom) / 2) * height * unitDown) / length;
        return level - along * (ev + tint[channel]!);
      }),
    );
  return { columns: 2, rows: 2, red: nodes(0), green: nodes(1), blue: nodes(2) };
}

/** Stops by which each channel changes with the ramp's colour, from its start to its end. */
function tintOf({ angleDeg, mired, duv }: Profile['gradient'], neutral: Profile['neutral'], toXyz: Matrix3) {
  if (angleDeg === null || mired === null || duv === null) return [0, 0, 0] as Vector3;
  return colourChange([1 / neutral.red, 1 / neutral.green, 1 / neutral.blue], mired, duv, toXyz);
}

/** Stops by which each channel changes, at one luminance, where a colour grows warmer and greener by so much. */
function colourChange(middle: Vector3, mired: number, duv: number, toXyz: Matrix3): Vector3 {
  const { uPrime, vPrime } = xyzToUvPrime(...transformVector3(toXyz, middle));
  const centre = warmthFromD65(uPrime, vPrime) ?? { mired: 0, duv: 0 };
  const fromXyz = invertMatrix3(toXyz);
  const end = (side: number) => {
    const colour = colourOfWarmth(centre.mired + side * mired, centre.duv + side * duv);
    return transformVector3(fromXyz, xyToXyz(uvPrimeToXy(colour)));
  };
  const [from, to] = [end(-0.5), end(0.5)];
  const change = from.map((value, i) => Math.log2(to[i]! / value));
  return change.every(Number.isFinite) ? (change as unknown as Vector3) : [0, 0, 0];
}

/** Stops to add to all gains so that the ramp goes to the brightest, mean or darkest light of the region. */
function levelOf(
  { reference }: Profile,
  right: number,
  down: number,
  halfWidth: number,
  halfHeight: number,
): number {
  const reach = Math.abs(right) * halfWidth + Math.abs(down) * halfHeight;
  if (reference !== 'mean') return reference === 'brightest' ? reach : -reach;
  return Math.log2(meanOfRamp(right * halfWidth) * meanOfRamp(down * halfHeight));
}

/** Mean of 2^x for x evenly from −reach to reach. */
function meanOfRamp(reach: number): number {
  const exponent = reach * Math.LN2;
  return Math.abs(exponent) < 1e-6 ? 1 : Math.sinh(exponent) / exponent;
}
