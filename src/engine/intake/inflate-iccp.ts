import type { Platform } from './platform.ts';

/** Above every matrix profile and most table ones; a stream that inflates further is not a profile. */
const LARGEST_PROFILE_BYTES = 8 << 20;

/**
 * The ICC profile in an iCCP chunk: a name, a zero, the method 0, a zlib stream (ISO/IEC 15948:2004, 11.3.3.3).
 * Empty where there is one that does not inflate, so that a reading can say that it was broken.
 */
export async function inflateIccp(data: Uint8Array, platform: Platform): Promise<Uint8Array> {
  const nameEnd = data.indexOf(0);
  if (nameEnd < 0 || data[nameEnd + 1] !== 0) return new Uint8Array(0);
  const pieces: Uint8Array[] = [];
  let length = 0;
  try {
    for await (const piece of platform.inflateZlib([data.subarray(nameEnd + 2)])) {
      length += piece.length;
      if (length > LARGEST_PROFILE_BYTES) return new Uint8Array(0);
      pieces.push(piece);
    }
  } catch {
    return new Uint8Array(0);
  }
  const profile = new Uint8Array(length);
  let at = 0;
  for (const piece of pieces) {
    profile.set(piece, at);
    at += piece.length;
  }
  return profile;
}
