import type { Lcms } from 'lcms-wasm';
import type { ProfileTables } from '../src/engine/intake/platform.ts';

/** Formats as the module numbers them: what kind of colour, how many channels, of how many bytes. */
const GREY_16 = (3 << 16) | (1 << 3) | 2;
const RGB_16 = (4 << 16) | (3 << 3) | 2;
const XYZ_FLOAT = 4784156;
const RELATIVE_COLORIMETRIC = 1;
/** Tables are followed as they are, node by node, not resampled to fewer. */
const NO_OPTIMISING = 0x0100;
/** A profile is handed over on the module's stack, which has 15 MB. */
const LARGEST_PROFILE_BYTES = 8 << 20;

let module: Promise<Lcms> | null = null;

/** Opens a profile's tables by a module that is fetched when it is first needed, and kept. */
export async function openProfileTables(profile: Uint8Array): Promise<ProfileTables | null> {
  if (profile.length > LARGEST_PROFILE_BYTES) return null;
  module ??= import('lcms-wasm').then(({ instantiate }) => instantiate());
  const lcms = await module.catch((error: unknown) => {
    module = null; // to be fetched again
    throw error;
  });
  try {
    return tablesOf(lcms, profile);
  } catch {
    module = null; // as below
    return null;
  }
}

function tablesOf(lcms: Lcms, bytes: Uint8Array): ProfileTables | null {
  const profile = lcms.cmsOpenProfileFromMem(bytes, bytes.length);
  if (!profile) return null;
  const format = String.fromCharCode(...bytes.subarray(16, 20)) === 'GRAY' ? GREY_16 : RGB_16;
  const channels = format === GREY_16 ? 1 : 3;
  const connection = lcms.cmsCreateXYZProfile();
  const transform = lcms.cmsCreateTransform(
    profile,
    format,
    connection,
    XYZ_FLOAT,
    RELATIVE_COLORIMETRIC,
    NO_OPTIMISING,
  );
  lcms.cmsCloseProfile(profile);
  lcms.cmsCloseProfile(connection);
  if (!transform) return null;
  let isBroken = false;
  return {
    toXyz(codes) {
      try {
        return lcms.cmsDoTransform(transform, codes, codes.length / channels);
      } catch (error) {
        isBroken = true;
        module = null; // what ended in the middle has left it in a state that nobody knows
        throw error;
      }
    },
    close() {
      if (!isBroken) lcms.cmsDeleteTransform(transform);
    },
  };
}
