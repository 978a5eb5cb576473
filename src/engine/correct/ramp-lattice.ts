import { uvPrimeToXy, xyToXyz, xyzToUvPrime } from '../colour/chromaticity.ts';
import { colourOfWarmth } from '../colour/colour-of-warmth.ts';
import { warmthFromD65 } from '../colour/warmth.ts';
import { invertMatrix3, type Matrix3, transformVector3, type Vector3 } from '../numeric/matrix3.ts';
import type { GainLattice, Profile } from '../profile/profile.ts';

/** Degrees clockwise from "to the right", in square-pixel coordinates. */
const RADIANS = Math.PI / 180;

/**
 * The gains of the profile's straight ramp alone, as anyone would set it by hand: log2 gain of each channel is a plane
 * over the frame, which four nodes hold exactly. The ramp of light runs along the gradient, that of colour along the
 * gradient of tint; neither changes what lies at the region's centre but for the level that the profile refers to.
 */
export function rampLattice(profile: Profile, toXyz: Matrix3): GainLattice {
  const { left, top, right, bottom } = profile.madeFrom.region;
  const height = profile.madeFrom.heightPx / profile.madeFrom.widthPx;
  const halfWidth = (right - left) / 2;
  const halfHeight = ((bottom - top) / 2) * height;
  const slopes = rampSlopes(profile, toXyz, (x, y) => Math.abs(x) * halfWidth + Math.abs(y) * halfHeight);
  const level = levelOf(profile, slopes.light, halfWidth, halfHeight);
  const nodes = (channel: 0 | 1 | 2) =>
    [0, 1].flatMap((y) =>
      [0, 1].map((x) => {
        const across = x - (left + right) / 2;
        const down = (y - (top + bottom) / 2) * height;
        const light = slopes.light.right * across + slopes.light.down * down;
        const tint = slopes.tint[channel]! * (slopes.tintRight * across + slopes.tintDown * down);
        return level - light - tint;
      }),
    );
  return { columns: 2, rows: 2, red: nodes(0), green: nodes(1), blue: nodes(2) };
}

interface Slope {
  readonly right: number;
  readonly down: number;
}

/** Stops per frame width of light, and of each channel along the direction of tint. */
function rampSlopes(
  { gradient, tintGradient, neutral }: Profile,
  toXyz: Matrix3,
  reach: (x: number, y: number) => number,
) {
  const along = (angleDeg: number) => {
    const [x, y] = [Math.cos(angleDeg * RADIANS), Math.sin(angleDeg * RADIANS)];
    return { x, y, length: 2 * reach(x, y) };
  };
  let light: Slope = { right: 0, down: 0 };
  if (gradient.angleDeg !== null) {
    const { x, y, length } = along(gradient.angleDeg);
    light = { right: (gradient.ev / length) * x, down: (gradient.ev / length) * y };
  }
  const { angleDeg, mired, duv } = tintGradient;
  if (angleDeg === null || mired === null || duv === null)
    return { light, tint: [0, 0, 0] as Vector3, tintRight: 0, tintDown: 0 };
  const { x, y, length } = along(angleDeg);
  const tint = colourChange([1 / neutral.red, 1 / neutral.green, 1 / neutral.blue], mired, duv, toXyz);
  return { light, tint, tintRight: x / length, tintDown: y / length };
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
function levelOf({ reference }: Profile, { right, down }: Slope, halfWidth: number, halfHeight: number) {
  const reach = Math.abs(right) * halfWidth + Math.abs(down) * halfHeight;
  if (reference !== 'mean') return reference === 'brightest' ? reach : -reach;
  return Math.log2(meanOfRamp(right * halfWidth) * meanOfRamp(down * halfHeight));
}

/** Mean of 2^x for x evenly from −reach to reach. */
function meanOfRamp(reach: number): number {
  const exponent = reach * Math.LN2;
  return Math.abs(exponent) < 1e-6 ? 1 : Math.sinh(exponent) / exponent;
}
