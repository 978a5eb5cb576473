import { bradfordMatrix } from '../colour/bradford.ts';
import { DCF_WIDE_EXPONENT, DCF_WIDE_RGB } from '../colour/dcf-wide-space.ts';
import type { LinearRgbSpace } from '../colour/linear-rgb-space.ts';
import { rgbToXyzMatrix } from '../colour/rgb-to-xyz-matrix.ts';
import { srgbDecode } from '../colour/srgb-curve.ts';
import { SRGB } from '../colour/srgb-space.ts';
import { D65 } from '../colour/white-points.ts';
import { WIDE_RGB } from '../colour/wide-space.ts';
import { type CodedColour, codedColour } from '../intake/code-points.ts';
import { readIccProfile } from '../intake/read-icc-profile.ts';
import type { StatedChromaticities, StoredImage, ThroughTables } from '../intake/stored-image.ts';
import { evaluateToneCurve } from '../intake/tone-curve.ts';
import { multiplyMatrix3 } from '../numeric/matrix3.ts';
import { type ColourOfSpace, profileColour } from './profile-colour.ts';

/** From a code, 0 to 1, to linear light. */
type Decode = (code: number) => number;

/** How a file's codes are to be understood. */
export interface ColourInterpretation extends ColourOfSpace {
  readonly decode: { readonly red: Decode; readonly green: Decode; readonly blue: Decode };
  /** For a reading's `colourProfile`. */
  readonly name: string;
  /** One sentence: what was gone by, or assumed and why. */
  readonly says: string;
}

/**
 * Decides what a file's codes mean: its embedded profile, else what a PNG or Exif states, else sRGB, said to be
 * assumed. The order is PNG's own (ISO/IEC 15948:2004, 11.3.3).
 */
export function interpretColour(stored: StoredImage): ColourInterpretation {
  if (stored.throughTables) return byTables(stored.throughTables);
  if (stored.iccProfile) return byProfile(stored.iccProfile, stored.tablesNotRead);
  if (stored.codePoints) return byCodePoints(codedColour(stored.codePoints));
  if (stored.sRgbStated || stored.exifColourSpace === 1)
    return asSrgb('sRGB', 'The file is decoded as sRGB, as it states.');
  if (stored.exifColourSpace === 2)
    return { ...colourOf(DCF_WIDE_RGB), decode: thrice((code) => code ** DCF_WIDE_EXPONENT), ...DCF_WIDE };
  const stated = stored.chromaticities ? statedColour(stored.chromaticities) : null;
  if (stored.isFloat)
    return { ...asStated(1, null), name: 'linear, sRGB primaries (assumed)', says: LINEAR_FLOAT };
  if (stored.gamma !== null || stated) return asStated(stored.gamma, stated);
  const named =
    stored.exifColourSpace === null ? 'names no colour profile' : 'calls its colours uncalibrated';
  return asSrgb(ASSUMED, `The file ${named}, so sRGB is assumed.`);
}

const DCF_WIDE = {
  name: 'DCF optional colour space',
  says: 'The file embeds no profile; it is decoded by the optional wide colour space of cameras’ files (DCF), as its Exif says.',
};

/** What is left unspecified is sRGB's. */
function byCodePoints({ primaries, curve }: CodedColour): ColourInterpretation {
  const decode: Decode = curve ? (code) => evaluateToneCurve(curve.curve, code) : srgbDecode;
  const space: LinearRgbSpace = primaries
    ? { name: primaries.name, primaries, white: primaries.white }
    : SRGB;
  const curveName = curve?.name ?? 'sRGB’s curve (assumed)';
  const spaceName = primaries?.name ?? 'sRGB (assumed)';
  return {
    ...colourOf(space),
    decode: thrice(decode),
    name: `${spaceName}, ${curveName}`,
    says: `The file embeds no profile; by the numbers that it states it is decoded by ${curveName}, in the primaries of ${spaceName}.`,
  };
}

const LINEAR_FLOAT =
  'The file embeds no profile; its floating-point samples are taken as linear light in the primaries of sRGB.';

const ASSUMED = 'sRGB (assumed)';

/** Says why sRGB is assumed although a file has a profile; `null` where it is decoded by its profile, or has none. */
export function profileNotUsed(stored: StoredImage): string | null {
  const { name, says } = interpretColour(stored);
  return stored.iccProfile && name === ASSUMED ? says : null;
}

/** Samples are the wide space's linear light already. */
function byTables({ description }: ThroughTables): ColourInterpretation {
  return {
    ...colourOf(WIDE_RGB),
    decode: thrice((code) => code),
    name: description,
    says: `The file is decoded by the tables of its embedded profile “${description}”.`,
  };
}

function byProfile(bytes: Uint8Array, tablesNotRead = 'which were not read'): ColourInterpretation {
  const profile = readIccProfile(bytes);
  if (profile.kind === 'broken')
    return asSrgb(ASSUMED, `The embedded colour profile is broken (${profile.why}), so sRGB is assumed.`);
  const { description } = profile;
  if (profile.kind === 'table-only')
    return asSrgb(
      ASSUMED,
      `The embedded profile “${description}” holds tables only, ${tablesNotRead}, so sRGB is assumed.`,
    );
  const says = `The file is decoded by the embedded profile “${description}”.`;
  if (profile.kind === 'grey') {
    const decode: Decode = (code) => evaluateToneCurve(profile.curve, code);
    return { ...colourOf(SRGB), decode: thrice(decode), name: description, says };
  }
  const { red, green, blue } = profile.curves;
  return {
    ...profileColour(profile),
    decode: {
      red: (code) => evaluateToneCurve(red, code),
      green: (code) => evaluateToneCurve(green, code),
      blue: (code) => evaluateToneCurve(blue, code),
    },
    name: description,
    says,
  };
}

function asSrgb(name: string, says: string): ColourInterpretation {
  return { ...colourOf(SRGB), decode: thrice(srgbDecode), name, says };
}

function asStated(exponent: number | null, colour: ColourOfSpace | null): ColourInterpretation {
  const decode: Decode = exponent === null ? srgbDecode : (code) => code ** exponent;
  const curve =
    exponent === null ? 'sRGB’s curve, as it names none' : `the exponent ${rounded(exponent)} that it states`;
  const primaries = colour ? 'its own primaries' : 'the primaries of sRGB';
  const name = `${colour ? 'stated primaries' : 'sRGB primaries'}, ${exponent === null ? 'sRGB curve' : `exponent ${rounded(exponent)}`}`;
  return {
    ...(colour ?? colourOf(SRGB)),
    decode: thrice(decode),
    name,
    says: `The file embeds no profile; it is decoded by ${curve} and ${primaries}.`,
  };
}

function statedColour({ white, red, green, blue }: StatedChromaticities): ColourOfSpace | null {
  try {
    const colour = colourOf({ name: 'stated primaries', primaries: { red, green, blue }, white });
    return colour.toXyz.every(Number.isFinite) ? colour : null;
  } catch {
    return null; // three colours on a line: a slip of whoever wrote the file
  }
}

function colourOf(space: LinearRgbSpace): ColourOfSpace {
  const toXyz = multiplyMatrix3(
    bradfordMatrix(space.white, D65),
    rgbToXyzMatrix(space.primaries, space.white),
  );
  return { space, toXyz };
}

function thrice(decode: Decode) {
  return { red: decode, green: decode, blue: decode };
}

function rounded(exponent: number): number {
  return Math.round(exponent * 1000) / 1000;
}
