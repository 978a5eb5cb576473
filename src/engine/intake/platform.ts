import type { RawFile } from './raw-file.ts';

/** An interleaved 8-bit RGBA picture in stored orientation, no colour conversion done. */
export interface RgbaPicture {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly samples: Uint8Array | Uint8ClampedArray;
}

/** Formats that a platform decodes, or may. */
export type DecodedType = 'image/jpeg' | 'image/webp' | 'image/avif' | 'image/heic';

/** The tables of one profile, opened. */
export interface ProfileTables {
  /**
   * Takes 16-bit codes, as many a pixel as the profile's colour has channels, to XYZ of the connection space: relative
   * to the media's white, which is the space's D50 at Y = 1, without black-point compensation.
   */
  toXyz(codes: Uint16Array): Float32Array;
  close(): void;
}

/** What the engine borrows from where it runs (a browser's worker or Node), so that it needs no DOM itself. */
export interface Platform {
  /**
   * Decodes a whole picture, the first where it holds several, without colour conversion; rejects where it is damaged.
   * `null` where the platform does not know the format. A JPEG's notes are not heeded; from other formats whatever
   * would turn or convert the picture has been taken out.
   */
  decodePicture(bytes: Uint8Array, type: DecodedType): Promise<RgbaPicture | null>;
  /**
   * Decodes a JPEG of a known size to few pixels, at least `longestPx` along its longer side where it has as many, in
   * colours that may have been converted: to be looked at, and not to be measured. `null` or absent where the platform
   * decodes whole pictures only; rejects where the JPEG is damaged.
   */
  decodeJpegInSmall?(
    bytes: Uint8Array,
    size: { readonly widthPx: number; readonly heightPx: number },
    longestPx: number,
  ): Promise<RgbaPicture | null>;
  /**
   * Opens a profile that holds tables from codes to colour; `null` where they can't be made sense of. Rejects where
   * the module that reads them can't be had. Platforms without one lack the member.
   */
  openProfileTables?(profile: Uint8Array): Promise<ProfileTables | null>;
  /** Inflates a zlib stream given in pieces, handing on pieces of any size in order. */
  inflateZlib(pieces: readonly Uint8Array[]): AsyncIterable<Uint8Array>;
  /** Deflates bytes given in pieces to one zlib stream, asking for the next piece when there is room for it. */
  deflateZlib(pieces: Iterable<Uint8Array>): AsyncIterable<Uint8Array>;
  /**
   * Encodes an opaque picture as a JPEG at a quality from 0 to 1, colours as they stand; at 1 with full colour
   * resolution. Rejects where the platform can't.
   */
  encodeJpeg(picture: RgbaPicture, quality: number): Promise<Uint8Array>;
  /**
   * Opens a camera's raw file, loading the decoder when it is first asked for; absent where there is none. Rejects with
   * an `Error` whose message ends in "code" and the decoder's own number.
   */
  openRaw?(bytes: Uint8Array): Promise<RawFile>;
  /** Lower-case hex SHA-256, or `null` where the platform offers none. */
  sha256Hex(bytes: Uint8Array): Promise<string | null>;
}
