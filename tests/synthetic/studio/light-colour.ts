import { planckianUv, srgbLightOfXyz, WHITE_XYZ, type Xyz } from '../colour-truth.ts';

/** The colour of a light: a black body or daylight of that temperature, moved off the Planckian locus by `duv`. */
export interface LightColour {
  readonly kind: 'planckian' | 'daylight';
  readonly kelvin: number;
  /** CIE 1960 distance added along the locus's normal; positive is greener. */
  readonly duv?: number;
}

export type Rgb = readonly [number, number, number];

/** Linear sRGB light, luminance 1, of a light seen by a camera whose white balance is set to `white`. */
export function rgbOfLight(light: LightColour, white: LightColour): Rgb {
  return srgbLightOfXyz(adaptedToD65(xyzOfLight(light), xyzOfLight(white)));
}

/** XYZ with Y = 1. */
export function xyzOfLight({ kind, kelvin, duv = 0 }: LightColour): Xyz {
  let [u, v] = kind === 'planckian' ? planckianUv(1e6 / kelvin) : daylightUv(kelvin);
  if (duv !== 0) {
    const mired = 1e6 / kelvin;
    const [warmU, warmV] = planckianUv(mired + 0.5);
    const [coolU, coolV] = planckianUv(mired - 0.5);
    const length = Math.hypot(warmU - coolU, warmV - coolV);
    u -= (duv * (warmV - coolV)) / length; // the normal that points up, to greener light
    v += (duv * (warmU - coolU)) / length;
  }
  const x = (3 * u) / (2 * u - 8 * v + 4);
  const y = (2 * v) / (2 * u - 8 * v + 4);
  return [x / y, 1, (1 - x - y) / y];
}

/** The daylight locus from 4000 to 25 000 K. Source: CIE 15:2004, equations 3.3 and 3.4. */
function daylightUv(kelvin: number): [number, number] {
  if (!(kelvin >= 4000 && kelvin <= 25_000)) throw new RangeError(`daylight of ${kelvin} K is not defined`);
  const [a, b, c, d] =
    kelvin <= 7000 ? [-4.607e9, 2.9678e6, 0.09911e3, 0.244063] : [-2.0064e9, 1.9018e6, 0.24748e3, 0.23704];
  const x = a / kelvin ** 3 + b / kelvin ** 2 + c / kelvin + d;
  const y = -3 * x * x + 2.87 * x - 0.275;
  return [(4 * x) / (-2 * x + 12 * y + 3), (6 * y) / (-2 * x + 12 * y + 3)];
}

/** Linear Bradford. Source: matrix as printed in ICC.1:2010, annex E. */
function adaptedToD65(xyz: Xyz, from: Xyz): Xyz {
  const cones = ([x, y, z]: Xyz): [number, number, number] => [
    0.8951 * x + 0.2664 * y - 0.1614 * z,
    -0.7502 * x + 1.7135 * y + 0.0367 * z,
    0.0389 * x - 0.0685 * y + 1.0296 * z,
  ];
  const [seen, white, wanted] = [cones(xyz), cones(from), cones(WHITE_XYZ)];
  const [l, m, s] = seen.map((cone, i) => (cone * wanted[i]!) / white[i]!) as [number, number, number];
  return [
    0.9869929 * l - 0.1470543 * m + 0.1599627 * s,
    0.4323053 * l + 0.5183603 * m + 0.0492912 * s,
    -0.0085287 * l + 0.0400428 * m + 0.9684867 * s,
  ];
}
