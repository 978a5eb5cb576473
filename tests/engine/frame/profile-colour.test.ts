import { expect, test } from 'vitest';
import { bradfordMatrix } from '../../../src/engine/colour/bradford.ts';
import type { LinearRgbSpace } from '../../../src/engine/colour/linear-rgb-space.ts';
import { rgbToXyzMatrix } from '../../../src/engine/colour/rgb-to-xyz-matrix.ts';
import { SRGB } from '../../../src/engine/colour/srgb-space.ts';
import { D65 } from '../../../src/engine/colour/white-points.ts';
import { profileColour } from '../../../src/engine/frame/profile-colour.ts';
import { readIccProfile } from '../../../src/engine/intake/read-icc-profile.ts';
import { multiplyMatrix3 } from '../../../src/engine/numeric/matrix3.ts';
import { expectWithin } from '../../expect-within.ts';
import { sharedPhoto, sharedPhotosPresent } from '../../shared-photos.ts';
import { DISPLAY_P3, OP_RGB, REC_2020, ROMM_RGB } from '../colour/rgb-spaces.ts';

const KNOWN: readonly (readonly [file: string, space: LinearRgbSpace])[] = [
  ['sRGB-v4', SRGB],
  ['sRGB-v2-micro', SRGB],
  ['scRGB-v2', SRGB],
  ['DisplayP3-v4', DISPLAY_P3],
  ['DisplayP3-v2-magic', DISPLAY_P3],
  ['Rec2020-v4', REC_2020],
  ['ProPhoto-v4', ROMM_RGB],
  ['wide-rgb-gamma22-v4', OP_RGB],
];

test.skipIf(!sharedPhotosPresent)(
  'profileColour(profile) finds the published space behind each real profile',
  () => {
    let worstXy = 0;
    let worstMatrix = 0;
    for (const [file, { primaries, white }] of KNOWN) {
      const profile = readIccProfile(sharedPhoto(`colour-profiles/${file}.icc`));
      if (profile.kind !== 'matrix') throw new Error(`${file} is read as ${profile.kind}`);
      const { space, toXyz } = profileColour(profile);
      const found = [space.primaries.red, space.primaries.green, space.primaries.blue, space.white].flat();
      const published = [primaries.red, primaries.green, primaries.blue, white].flat();
      found.forEach((value, i) => {
        worstXy = Math.max(worstXy, Math.abs(value - published[i]!));
      });
      // the profile file names the space by chromaticities: going that way must give the same light
      const byName = multiplyMatrix3(
        bradfordMatrix(space.white, D65),
        rgbToXyzMatrix(space.primaries, space.white),
      );
      const byBook = multiplyMatrix3(bradfordMatrix(white, D65), rgbToXyzMatrix(primaries, white));
      toXyz.forEach((value, i) => {
        worstMatrix = Math.max(worstMatrix, Math.abs(value - byName[i]!), Math.abs(value - byBook[i]!));
      });
    }
    console.log(
      `measured: profiles off the published spaces by ${worstXy.toFixed(6)} in x, y and ${worstMatrix.toFixed(6)} in XYZ`,
    );
    expect(worstXy).toBeLessThanOrEqual(0.0001);
    expect(worstMatrix).toBeLessThanOrEqual(0.0002);
  },
);

test.skipIf(!sharedPhotosPresent)(
  'profileColour(profile) goes by a profile whose adaptation is not quite Bradford',
  () => {
    // this one lifts red's Z from −69/65536 to 0, for readers that can't take a negative, and bends chad to match
    const profile = readIccProfile(sharedPhoto('colour-profiles/DisplayP3Compat-v4.icc'));
    if (profile.kind !== 'matrix') throw new Error(`read as ${profile.kind}`);
    const { space, toXyz } = profileColour(profile);
    expectWithin(space.primaries.red[0], DISPLAY_P3.primaries.red[0], 0.0001);
    expectWithin(space.primaries.red[1], DISPLAY_P3.primaries.red[1], 0.0001);
    // red's Z under D65: what was lifted, times D65's Z over D50's
    const book = multiplyMatrix3(bradfordMatrix(D65, D65), rgbToXyzMatrix(DISPLAY_P3.primaries, D65));
    expectWithin(toXyz[6] - book[6], ((69 / 65536) * 1.089) / 0.8249, 0.00002);
  },
);
