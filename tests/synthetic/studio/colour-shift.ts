import { locusPlace, srgbLightOfXyz, uvPrimeOfXyz, WHITE_XYZ } from '../colour-truth.ts';
import { type LightColour, type Rgb, xyzOfLight } from './light-colour.ts';

const [WHITE_U, WHITE_V] = uvPrimeOfXyz(WHITE_XYZ);
const WHITE_PLACE = locusPlace(WHITE_U, WHITE_V);

/**
 * What turns neutral light into one that reads `mired` warmer and `duv` greener than the white of the file, channel
 * by channel; luminance is kept.
 */
export function colourShift(mired: number, duv: number): Rgb {
  const from = UNSHIFTED;
  const to = lightAt(mired, duv);
  const luminance = LUMINANCE.reduce((sum, share, i) => sum + (share * to[i]!) / from[i]!, 0);
  return [to[0] / from[0] / luminance, to[1] / from[1] / luminance, to[2] / from[2] / luminance];
}

/** A light's colour moved along the Planckian locus and off it. */
export function shiftedLight(light: LightColour, mired: number, duv = 0): LightColour {
  return { kind: 'planckian', kelvin: 1e6 / (1e6 / light.kelvin + mired), duv: (light.duv ?? 0) + duv };
}

/** Shares of the linear sRGB channels in luminance. Source: IEC 61966-2-1:1999. */
export const LUMINANCE: Rgb = [0.2126, 0.7152, 0.0722];

function lightAt(mired: number, duv: number) {
  return srgbLightOfXyz(
    xyzOfLight({
      kind: 'planckian',
      kelvin: 1e6 / (WHITE_PLACE.mired + mired),
      duv: WHITE_PLACE.duv + duv,
    }),
  );
}

/** Divided by, as the spline is a little off the locus and no shift has to be none. */
const UNSHIFTED = lightAt(0, 0);
