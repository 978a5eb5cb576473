import type { StoredImage } from './stored-image.ts';
import { openTiffDirectory } from './tiff-directory.ts';

/** What a file says of camera and focus, for holding a frame against its blank. */
export interface ShotFacts {
  /** `null` where it does not say. */
  readonly model: string | null;
  /** Distance that the lens was focused at; infinite where it says so, `null` where it does not say. */
  readonly subjectDistanceM: number | null;
  /** What a raw file's white balance takes for neutral, in the camera's own red, green and blue; absent for others. */
  readonly neutral?: readonly [number, number, number] | null;
}

/** Source of the tag numbers: Exif (CIPA DC-008), tables 4 and 8. */
const MODEL = 272;
const EXIF_DIRECTORY = 34665;
const SUBJECT_DISTANCE = 37382;
/** Exif writes infinity as 2^32 − 1 over anything, and 0 for "unknown"; nothing that is lit is so far away. */
const FARTHEST_M = 100_000;

/** What a stored picture says of its shot. */
export function shotOf({ exif, raw }: Pick<StoredImage, 'exif' | 'raw'>): ShotFacts {
  return raw ? { ...shotFacts(exif), neutral: raw.colour.neutral } : shotFacts(exif);
}

/** Reads them from a file's Exif block. */
export function shotFacts(exif: Uint8Array | null | undefined): ShotFacts {
  const main = exif ? openTiffDirectory(exif, null) : null;
  const exifAt = main?.number(EXIF_DIRECTORY) ?? null;
  const distance = exif && exifAt !== null ? openTiffDirectory(exif, exifAt)?.number(SUBJECT_DISTANCE) : null;
  return {
    model: main?.text(MODEL)?.trim() || null,
    subjectDistanceM:
      !distance || distance < 0 ? null : distance > FARTHEST_M ? Number.POSITIVE_INFINITY : distance,
  };
}
