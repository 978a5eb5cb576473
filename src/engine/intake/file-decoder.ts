import type { Platform } from './platform.ts';
import type { StoredImage } from './stored-image.ts';

/** Bytes to pixels as stored; `onProgress` gets a fraction from 0 to 1. */
export type FileDecoder = (
  bytes: Uint8Array,
  platform: Platform,
  onProgress?: (fraction: number) => void,
) => Promise<StoredImage>;
