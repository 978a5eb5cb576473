import type { Exposure } from '../reading.ts';
import { openTiffDirectory, type TiffDirectory } from './tiff-directory.ts';

/** The little of Exif that a reading needs. */
export interface ExifFacts {
  /** 1 to 8; 1 where absent or out of range. */
  readonly orientation: number;
  /** Exif ColorSpace: 1 sRGB, 2 the optional wide space, 65535 uncalibrated; `null` where absent. */
  readonly colourSpace: number | null;
  /** `null` where the file says nothing about it at all. */
  readonly exposure: Exposure | null;
}

export const NO_EXIF: ExifFacts = { orientation: 1, colourSpace: null, exposure: null };

/**
 * Reads Exif from a TIFF block (without the "Exif" lead of a JPEG). Damaged entries count as absent: a picture is not
 * refused for its notes. Only the first directory, the Exif one and its Interoperability one are followed, so no chain of offsets can loop.
 * Source of the tag numbers: Exif (CIPA DC-008), tables 4 and 7; see the constants.
 */
export function readExif(block: Uint8Array): ExifFacts {
  const main = openTiffDirectory(block, null);
  if (!main) return NO_EXIF;
  const exifOffset = main.number(TAG.exifDirectory);
  const exif = exifOffset === null ? null : openTiffDirectory(block, exifOffset);
  const orientation = main.number(TAG.orientation) ?? 1;
  return {
    orientation: orientation >= 1 && orientation <= 8 ? orientation : 1,
    colourSpace: exif && colourSpaceOf(exif, block),
    exposure: exif && exposureOf(exif),
  };
}

const TAG = {
  orientation: 274,
  exposureTime: 33434,
  fNumber: 33437,
  exifDirectory: 34665,
  isoSpeed: 34855,
  recommendedExposureIndex: 34866,
  dateTimeOriginal: 36867,
  focalLength: 37386,
  colourSpace: 40961,
  interoperabilityDirectory: 40965,
} as const;

const UNCALIBRATED = 65535;
const OPTIONAL_WIDE_SPACE = 2;
/** The Interoperability directory's first tag, and what it says of files in the optional wide space. */
const INTEROPERABILITY_INDEX = 1;
const OF_WIDE_SPACE = 'R03';

/**
 * Files in the optional wide space call themselves uncalibrated and name it in the Interoperability directory; some
 * cameras write 2 instead. Source: DCF (CIPA DC-009), as remembered; the 2 is practice, without a published source.
 */
function colourSpaceOf(exif: TiffDirectory, block: Uint8Array): number | null {
  const stated = exif.number(TAG.colourSpace);
  if (stated !== UNCALIBRATED) return stated;
  const at = exif.number(TAG.interoperabilityDirectory);
  const index = at === null ? null : openTiffDirectory(block, at)?.text(INTEROPERABILITY_INDEX);
  return index === OF_WIDE_SPACE ? OPTIONAL_WIDE_SPACE : stated;
}

function exposureOf(exif: TiffDirectory): Exposure | null {
  const positive = (tag: number) => {
    const value = exif.number(tag);
    return value !== null && value > 0 && Number.isFinite(value) ? value : null;
  };
  const iso = positive(TAG.isoSpeed);
  const exposure: Exposure = {
    seconds: positive(TAG.exposureTime),
    fNumber: positive(TAG.fNumber),
    // 65535 means "more than 16 bits hold": the index beside it has 32
    iso: iso === 65535 ? (positive(TAG.recommendedExposureIndex) ?? iso) : iso,
    focalLengthMm: positive(TAG.focalLength),
    takenAt: isoTime(exif.text(TAG.dateTimeOriginal)),
  };
  return Object.values(exposure).some((value) => value !== null) ? exposure : null;
}

/** "2026:03:01 10:20:30" to "2026-03-01T10:20:30"; `null` for blanks, zeros and what is no date. */
function isoTime(text: string | null): string | null {
  const parts = /^(\d{4})[:-](\d\d)[:-](\d\d)[ T](\d\d):(\d\d):(\d\d)/.exec(text ?? '');
  if (!parts) return null;
  const [, year, month, day, hour, minute, second] = parts;
  const iso = `${year}-${month}-${day}T${hour}:${minute}:${second}`;
  const time = new Date(`${iso}Z`);
  return Number.isFinite(time.getTime()) && time.toISOString().startsWith(iso) && year !== '0000'
    ? iso
    : null;
}
