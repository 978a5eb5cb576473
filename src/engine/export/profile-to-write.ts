import { DCF_WIDE_EXPONENT } from '../colour/dcf-wide-space.ts';
import type { LinearRgbSpace } from '../colour/linear-rgb-space.ts';
import { SRGB } from '../colour/srgb-space.ts';
import { WIDE_RGB_EXPONENT } from '../colour/wide-space.ts';
import { codedColour } from '../intake/code-points.ts';
import { iccElement } from '../intake/read-icc-profile.ts';
import type { StoredImage } from '../intake/stored-image.ts';
import { type MadeCurve, madeGreyProfile, madeProfile } from './made-profile.ts';

/**
 * The profile that a corrected file is to carry: the source's own bytes wherever that is possible. One is made where a
 * PNG only states its colours, which other formats have no place for, where a file states them by number or by Exif, where a grey profile would stand in a JPEG, which
 * is written in colour, and where the source's holds tables, which lead from codes to colour but not surely back. `null` where the source says nothing either, or its profile is broken.
 */
export function profileToWrite(
  stored: Pick<
    StoredImage,
    | 'exifColourSpace'
    | 'codePoints'
    | 'iccProfile'
    | 'gamma'
    | 'chromaticities'
    | 'sRgbStated'
    | 'throughTables'
  >,
  space: LinearRgbSpace,
  written: { readonly format: 'tiff' | 'png' | 'jpeg'; readonly channels: number },
): Uint8Array | null {
  const { iccProfile, gamma, chromaticities, sRgbStated } = stored;
  const isGrey = written.channels < 3;
  if (stored.throughTables) {
    const curve = { exponent: WIDE_RGB_EXPONENT };
    if (!isGrey) return madeProfile({ ...space, name: 'Wide RGB' }, curve);
    return written.format === 'jpeg'
      ? madeProfile({ ...SRGB, name: 'Grey in colour' }, curve)
      : madeGreyProfile('Grey, exponent 1.8', curve);
  }
  if (iccProfile) {
    if (iccProfile.length === 0) return null;
    const grey = written.format === 'jpeg' && isGrey ? iccElement(iccProfile, 'kTRC') : null;
    return grey ? madeProfile({ ...SRGB, name: 'Grey in colour' }, { element: grey }) : iccProfile;
  }
  const numbered = stored.codePoints && codedColour(stored.codePoints);
  const own: MadeCurve | null = numbered
    ? (numbered.curve?.curve ?? 'srgb')
    : stored.exifColourSpace === 2 && !sRgbStated
      ? { exponent: DCF_WIDE_EXPONENT }
      : null;
  if (own)
    return isGrey && written.format !== 'jpeg'
      ? madeGreyProfile('Stated grey', own)
      : madeProfile(space, own);
  if (written.format === 'png' || sRgbStated || !(gamma || chromaticities)) return null;
  const curve = gamma ? { exponent: gamma } : 'srgb';
  return isGrey && written.format !== 'jpeg'
    ? madeGreyProfile('Stated grey', curve)
    : madeProfile(space, curve);
}
