import type { StoredImage } from '../../../src/engine/intake/stored-image.ts';

/** A 16 × 16 picture without metadata, to be varied. */
export function storedPicture(parts: Partial<StoredImage> = {}): StoredImage {
  return {
    format: 'png',
    widthPx: 16,
    heightPx: 16,
    channels: 3,
    bitsPerSample: 8,
    samples: new Uint8Array(16 * 16 * 3),
    orientation: 1,
    iccProfile: null,
    gamma: null,
    exifColourSpace: null,
    exposure: null,
    jpegDcSteps: null,
    ...parts,
  };
}
