import type { StoredImage } from '../intake/stored-image.ts';

/**
 * Where codes stop telling light: at or above the one, at or below the other. The rounding between
 * colour models of JPEG and its like lets clipped white come back one code lower; 12-bit light stretched to 16 bits ends at 65520.
 */
export function codeLimits({
  format,
  bitsPerSample,
  isLossy,
}: Pick<StoredImage, 'format' | 'bitsPerSample' | 'isLossy'>): {
  clipCode: number;
  floorCode: number;
} {
  if (bitsPerSample === 16) return { clipCode: 65520, floorCode: 0 };
  return format === 'jpeg' || isLossy ? { clipCode: 254, floorCode: 1 } : { clipCode: 255, floorCode: 0 };
}
