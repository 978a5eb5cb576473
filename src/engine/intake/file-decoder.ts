import type { Platform } from './platform.ts';
import type { StoredImage } from './stored-image.ts';

export interface DecodeWishes {
  /**
   * What a camera's raw file is wanted as: its cells, to be measured, or a whole picture, to be corrected. Cells where
   * left out.
   */
  readonly rawAs?: 'cells' | 'picture';
}

/** Bytes to pixels as stored; `onProgress` gets a fraction from 0 to 1. */
export type FileDecoder = (
  bytes: Uint8Array,
  platform: Platform,
  onProgress?: (fraction: number) => void,
  wishes?: DecodeWishes,
) => Promise<StoredImage>;
