/**
 * A corrected frame ready to be written, in the source's stored orientation and colour coding. Row-major and
 * interleaved like a StoredImage: grey, grey and alpha, RGB, RGB and alpha.
 */
export interface CorrectedPicture {
  /** As stored, not turned. */
  readonly widthPx: number;
  readonly heightPx: number;
  /** As in the source's file: 3 for a colour JPEG, although it is decoded to 4. */
  readonly channels: 1 | 2 | 3 | 4;
  readonly bitsPerSample: 8 | 16;
  readonly samples: Uint8Array | Uint8ClampedArray | Uint16Array;
  /** Exif orientation, 1 to 8. */
  readonly orientation: number;
  /** The source's own bytes. */
  readonly iccProfile: Uint8Array | null;
  /** The source's Exif as a TIFF block, without the "Exif" lead of a JPEG. */
  readonly exif: Uint8Array | null;
  /** The source's XMP packet. */
  readonly xmp?: Uint8Array | null;
}
