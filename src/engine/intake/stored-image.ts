import type { Exposure } from '../reading.ts';
import type { CodePoints } from './code-points.ts';
import type { JpegDcSteps } from './jpeg-dc-steps.ts';
import type { StoredRaw } from './stored-raw.ts';

/** CIE 1931 x, y of white and primaries as a PNG's cHRM states them. */
export interface StatedChromaticities {
  readonly white: readonly [number, number];
  readonly red: readonly [number, number];
  readonly green: readonly [number, number];
  readonly blue: readonly [number, number];
}

/** What a picture was before its samples were turned through a profile's tables into linear light. */
export interface ThroughTables {
  /** The profile's own name. */
  readonly description: string;
  /** Of the file; its samples have 16 now. */
  readonly bitsPerSample: 8 | 16;
  /** Per pixel: 1 where a channel was clipped in the file, 2 where one was blocked, 3 both. */
  readonly extremes: Uint8Array;
  /** Linear light of the file's own codes along its grey axis, rising; they are as coarse as the light is. */
  readonly lightAtCode: {
    readonly red: Float64Array;
    readonly green: Float64Array;
    readonly blue: Float64Array;
  };
  /** Codes of the file at or below it tell no light. */
  readonly floorCode: number;
}

/**
 * A decoded file, exactly as stored: integer codes, no curve undone, not turned upright.
 * `samples` is row-major and interleaved, `channels` values a pixel: grey, grey and alpha, RGB, RGB and alpha.
 * Codes run from 0 to 2^bitsPerSample − 1; depths below 8 bits and palettes are expanded to 8, those between 8 and 16,
 * and floating point, to 16. Colours are not multiplied by alpha.
 */
export interface StoredImage {
  readonly format: 'jpeg' | 'png' | 'tiff' | 'webp' | 'avif' | 'heic' | 'raw';
  readonly widthPx: number;
  readonly heightPx: number;
  readonly channels: 1 | 2 | 3 | 4;
  readonly bitsPerSample: 8 | 16;
  readonly samples: Uint8Array | Uint8ClampedArray | Uint16Array;
  /** Exif orientation, 1 to 8; 1 where the file says nothing. */
  readonly orientation: number;
  /** The embedded ICC profile's bytes; `null` where there is none, empty where there is one that can't be unpacked. */
  readonly iccProfile: Uint8Array | null;
  /**
   * PNG's gAMA as a decoding exponent (2.2 for 0.45455) where neither ICC nor sRGB is stated, 1 for floating point
   * without a profile; `null` otherwise.
   */
  readonly gamma: number | null;
  /** Colours stated by number, to be gone by; absent or `null` where a profile is, or nothing is stated so. */
  readonly codePoints?: CodePoints | null;
  /** Exif ColorSpace: 1 sRGB, 2 the optional wide space, 65535 uncalibrated; `null` where absent. */
  readonly exifColourSpace: number | null;
  readonly exposure: Exposure | null;
  /**
   * The file's Exif as it stands: a TIFF block, without the "Exif" lead of a JPEG; of a TIFF, the file itself. Absent
   * or `null` where none.
   */
  readonly exif?: Uint8Array | null;
  /** The file's XMP packet as it stands: captions, ratings, rights; absent or `null` where none. */
  readonly xmp?: Uint8Array | null;
  /** Whether a JPEG holds IPTC notes, which are not read; absent or false otherwise. */
  readonly hasIptc?: boolean;
  /** Whether a JPEG holds grey alone, which is handed out as RGBA all the same; absent or false otherwise. */
  readonly isGreyJpeg?: boolean;
  /** Whether the fourth channel of a picture handed out as RGBA says nothing; absent where channels are the file's. */
  readonly isOpaque?: boolean;
  /** Whether another format than JPEG was coded with losses; absent or false otherwise. */
  readonly isLossy?: boolean;
  /** A file's own word, by a chunk or by code points, that it is sRGB; absent or false where it says nothing. */
  readonly sRgbStated?: boolean;
  /** A PNG's cHRM where neither ICC nor sRGB is stated; absent or `null` otherwise. */
  readonly chromaticities?: StatedChromaticities | null;
  /** Whether the samples were floating point, which is coded linearly unless a profile says otherwise. */
  readonly isFloat?: boolean;
  /** Set where a profile's tables were gone by: samples are linear light of a wide space then, not as stored. */
  readonly throughTables?: ThroughTables;
  /** Why a profile's tables could not be gone by. */
  readonly tablesNotRead?: string;
  /** Sentences on what the file holds besides what was read, or in another form. */
  readonly readingSays?: readonly string[];
  /** What a camera's raw file says besides; absent for other formats. */
  readonly raw?: StoredRaw;
  /** How coarsely a JPEG coded its blocks' means; `null` for other formats. */
  readonly jpegDcSteps: JpegDcSteps | null;
}
