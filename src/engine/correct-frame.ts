import { WIDE_RGB_EXPONENT } from './colour/wide-space.ts';
import type { CorrectedLight, Treatment } from './correct/correct-light.ts';
import { correctLight, type LightOptions, TREATMENTS } from './correct/correct-light.ts';
import type { CorrectedPicture } from './correct/corrected-picture.ts';
import { frameDifferences } from './correct/frame-differences.ts';
import { matteDoubts } from './correct/matte/matte-doubts.ts';
import { refuseBlack } from './correct/refuse-black.ts';
import { EngineError } from './engine-error.ts';
import { exifOfRaw, leftOfRaw } from './export/exif-of-raw.ts';
import { impersonalExif } from './export/impersonal-exif.ts';
import { impersonalProfile } from './export/impersonal-profile.ts';
import { notCarried } from './export/not-carried.ts';
import { profileToWrite } from './export/profile-to-write.ts';
import { rawCoding } from './export/raw-coding.ts';
import {
  WRITTEN_FORMATS,
  type WrittenFile,
  type WrittenFormat,
  writePicture,
} from './export/write-picture.ts';
import { profileNotUsed } from './frame/interpret-colour.ts';
import { lightOfCodes } from './frame/light-of-codes.ts';
import { lightTable } from './frame/light-table.ts';
import type { LinearFrame } from './frame/linear-frame.ts';
import { linearise } from './frame/linearise.ts';
import { readThroughTables } from './frame/read-through-tables.ts';
import { uprightSize } from './grid/upright-rectangle.ts';
import { decodeImage } from './intake/decode-image.ts';
import { heldChannels } from './intake/held-channels.ts';
import type { Platform } from './intake/platform.ts';
import { type ShotFacts, shotOf } from './intake/shot-facts.ts';
import type { StoredImage } from './intake/stored-image.ts';
import type { FrameSource } from './measure-frame.ts';
import { parseProfile } from './profile/parse-profile.ts';
import type { Profile } from './profile/profile.ts';
import type { CameraResponse } from './response/camera-response.ts';
import { checkResponse } from './response/check-response.ts';

export interface CorrectOptions extends Omit<LightOptions, 'blank' | 'blockPx'> {
  readonly format?: WrittenFormat;
  /** Of the file written, 16 where left out; a JPEG always has 8. */
  readonly bits?: 8 | 16;
  readonly treat?: Treatment;
  /** The blank frame's file: 'background-only' needs it, and the background's figures are told by it. */
  readonly blank?: FrameSource;
  /** The blank's camera and focus, told where its file is not handed in. */
  readonly blankFacts?: ShotFacts | undefined;
  /** The response that the profile's blank was read by: light is found by it, and codes found again. */
  readonly response?: CameraResponse;
  /** What of its notes (Exif, XMP) the file carries on: all, where left out, or none that could tell a person. */
  readonly notes?: CarriedNotes;
}

/** 'impersonal': nothing that tells who shot a frame, where, or with which single camera and lens. */
export const CARRIED_NOTES = ['all', 'impersonal'] as const;
export type CarriedNotes = (typeof CARRIED_NOTES)[number];

export type CorrectPhase = 'opening' | 'decoding' | 'converting' | 'correcting' | 'writing';

/** A corrected frame as a file, and what is to be said of it. Structured-cloneable. */
export interface CorrectedFile extends WrittenFile, Omit<CorrectedLight, 'samples'> {
  /** Of the upright frame. */
  readonly widthPx: number;
  readonly heightPx: number;
  /** Sentences: in what the frame differs from the profile's blank, and what the file does not carry. */
  readonly flags: readonly string[];
  /** Sentences: as what it is written, where that is not the source's own colour coding. No reason to look at it. */
  readonly notes: readonly string[];
}

/**
 * Corrects one frame by a profile and writes it in the frame's own colour space, with its profile, Exif and
 * orientation. The source's bytes are only read.
 *
 * @throws {@link EngineError} what decoding throws, `wrong-profile`, `no-light` for a black frame, `cannot-write`.
 * @throws {@link RangeError} for options that there are not.
 */
export async function correctFrame(
  source: FrameSource,
  profile: Profile,
  options: CorrectOptions,
  platform: Platform,
  onProgress: (phase: CorrectPhase, fraction: number) => void = () => {},
): Promise<CorrectedFile> {
  const { format = 'tiff', bits = 16, treat = 'everything', levelEv = null, notes = 'all' } = options;
  refuseUnknown('format', format, WRITTEN_FORMATS);
  refuseUnknown('bits', bits, [8, 16]);
  refuseUnknown('treat', treat, TREATMENTS);
  refuseUnknown('notes', notes, CARRIED_NOTES);
  if (levelEv !== null && !Number.isFinite(levelEv))
    throw new RangeError(`levelEv is ${levelEv}, not finite`);
  const gains = parseProfile(profile);
  if (options.response) checkResponse(options.response);
  onProgress('opening', 0);
  const onDecoding = (fraction: number) => onProgress('decoding', fraction);
  const decoded = await decodeImage(source.bytes, platform, onDecoding, { rawAs: 'picture' });
  const stored = await readThroughTables(decoded, platform, (fraction) => onProgress('converting', fraction));
  try {
    const sha256 = await platform.sha256Hex(source.bytes);
    return await correctStored(stored, sha256, gains, { ...options, format, bits }, platform, onProgress);
  } catch (error) {
    throw outOfMemory(error, stored);
  }
}

async function correctStored(
  stored: StoredImage,
  sha256: string | null,
  gains: Profile,
  {
    format,
    bits,
    blank,
    blankFacts,
    response,
    notes,
    ...light
  }: CorrectOptions & { format: WrittenFormat; bits: 8 | 16 },
  platform: Platform,
  onProgress: (phase: CorrectPhase, fraction: number) => void,
): Promise<CorrectedFile> {
  const { frame } = linearise(stored, response);
  refuseBlack(frame);
  const blankStored = blank && (await openBlank(blank, platform));
  const bitsPerSample = format === 'jpeg' ? 8 : bits;
  const rawCoded = stored.raw ? rawCoding(frame.toXyz, format, stored.channels < 3) : null;
  const out = {
    channels: heldChannels(stored),
    bitsPerSample,
    // where a response is not gone by, the file's own curves hold at any depth
    lightAtCode: rawCoded
      ? sharedTable(bitsPerSample, rawCoded.decode)
      : lightToWrite(stored, bitsPerSample, frame.light === 'response-recovered' ? response : null),
    toWritten: rawCoded?.toWritten ?? null,
  };
  const { samples, ...corrected } = correctLight(
    frame,
    gains,
    { ...light, ...(blankStored && { blank: linearise(blankStored, response).frame }) },
    out,
    (fraction) => onProgress('correcting', fraction),
  );
  const { widthPx, heightPx, orientation, exposure } = stored;
  const { exif, xmp, says } = carriedNotes(stored, notes, format);
  const own = rawCoded?.iccProfile ?? profileToWrite(stored, frame.space, { format, channels: out.channels });
  const iccProfile = own && notes === 'impersonal' ? impersonalProfile(own) : own;
  const picture: CorrectedPicture = {
    ...{ widthPx, heightPx, channels: out.channels, bitsPerSample, samples },
    ...{ orientation, iccProfile, exif, xmp },
  };
  onProgress('writing', 0);
  const file = await writePicture(picture, format, platform, {
    stated: stored,
    onProgress: (fraction) => onProgress('writing', fraction),
  });
  onProgress('writing', 1);
  const upright = uprightSize(stored, orientation);
  const full = stored.raw ? uprightSize(stored.raw, orientation) : upright;
  const known = { ...full, orientation, exposure, light: frame.light, sha256, shot: shotOf(stored) };
  const flags = [
    ...frameDifferences(known, gains, blankStored ? shotOf(blankStored) : blankFacts),
    ...(corrected.matte ? matteDoubts(corrected.matte) : []),
    ...(rawCoded ? [] : profileFlags(stored, iccProfile !== null)),
    ...says,
  ];
  return { ...file, ...corrected, ...upright, flags, notes: rawCoded ? [rawCoded.says] : [] };
}

/** What of a file's notes goes into the corrected one, and what is to be said of what does not though it was wanted. */
function carriedNotes(stored: StoredImage, notes: CarriedNotes | undefined, format: WrittenFormat) {
  const exif = (stored.raw ? exifOfRaw(stored) : stored.exif) ?? null;
  if (notes === 'impersonal') {
    const left = exif && impersonalExif(exif);
    return {
      exif: left,
      xmp: null,
      says: notCarried({ ...stored, exif: left, xmp: null, hasIptc: false }, format),
    };
  }
  const says = [...(stored.raw ? leftOfRaw(stored) : []), ...notCarried({ ...stored, exif }, format)];
  return { exif, xmp: stored.xmp ?? null, says };
}

/** The light of every code that is written: in the wide space by a curve of its own, since its samples are linear. */
function lightToWrite(
  stored: StoredImage,
  bitsPerSample: 8 | 16,
  response: CameraResponse | null | undefined,
): LinearFrame['lightAtCode'] {
  if (!stored.throughTables) return lightOfCodes(stored, bitsPerSample, response);
  return sharedTable(bitsPerSample, (code) => code ** WIDE_RGB_EXPONENT);
}

function sharedTable(bitsPerSample: 8 | 16, decode: (code: number) => number): LinearFrame['lightAtCode'] {
  const light = lightTable(bitsPerSample, decode);
  return { red: light, green: light, blue: light };
}

async function openBlank({ name, bytes }: FrameSource, platform: Platform): Promise<StoredImage> {
  try {
    const decoded = await decodeImage(bytes, platform, undefined, { rawAs: 'picture' });
    return await readThroughTables(decoded, platform);
  } catch (error) {
    if (!(error instanceof EngineError)) throw error;
    throw new EngineError(error.code, `The blank frame ${name}: ${error.message}`, error.detail, {
      cause: error,
    });
  }
}

/** What browsers say where an array finds no room, as an error that says what to do; any other one as it is. */
function outOfMemory(error: unknown, { widthPx, heightPx }: StoredImage): unknown {
  if (!(error instanceof RangeError) || !/alloc|memory|array length/i.test(error.message)) return error;
  return new EngineError(
    'too-large',
    `There is not enough memory here to correct ${widthPx} × ${heightPx} pixels (${error.message}). ` +
      'Close other pages, correct one frame at a time, or ask for 8 bits.',
    { widthPx, heightPx },
    { cause: error },
  );
}

/** A profile that can't be gone by; its bytes are carried on all the same, but for those that can't be unpacked, or taken apart where nothing personal is wanted. */
function profileFlags(stored: StoredImage, isCarried: boolean): string[] {
  if (stored.throughTables) return [OUT_IN_WIDE_RGB];
  const says = profileNotUsed(stored);
  if (says === null) return [];
  return [stored.iccProfile && !isCarried ? `${says} The profile is not carried on.` : says];
}

const OUT_IN_WIDE_RGB =
  'The file’s own profile holds tables, which lead from codes to colour but not surely back: what is written is in a ' +
  'wide RGB space instead, and carries a profile that says so. Colours stay; programs that go by no profile show it dull.';

/** Callers from plain JavaScript, and over a wire, can hand in anything. */
function refuseUnknown(option: string, value: unknown, allowed: readonly unknown[]): void {
  if (allowed.includes(value)) return;
  throw new RangeError(`${option} is ${JSON.stringify(value)}; expected one of: ${allowed.join(', ')}`);
}
