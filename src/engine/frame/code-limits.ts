import type { StoredImage } from '../intake/stored-image.ts';

/**
 * Where codes stop telling light: at or above the one, at or below the other. JPEG's rounding between colour models lets
 * clipped white come back one code lower; 12-bit light stretched to 16 bits ends at 65520.
 */
export function codeLimits({ format, bitsPerSample }: Pick<StoredImage, 'format' | 'bitsPerSample'>): {
  clipCode: number;
  floorCode: number;
} {
  if (bitsPerSample === 16) return { clipCode: 65520, floorCode: 0 };
  return format === 'jpeg' ? { clipCode: 254, floorCode: 1 } : { clipCode: 255, floorCode: 0 };
}
