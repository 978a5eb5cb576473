import type { CorrectedPicture } from '../correct/corrected-picture.ts';
import { latinBytes } from './png-chunk-bytes.ts';

/**
 * A picture's XMP packet to be carried on, without thumbnails, which show the picture as it was. `null` where there is
 * none, or where it does not fit into `mostBytes`.
 */
export function xmpToWrite(
  { xmp }: Pick<CorrectedPicture, 'xmp'>,
  mostBytes = Number.POSITIVE_INFINITY,
): Uint8Array | null {
  if (!xmp?.length) return null;
  // letter by byte: the marks looked for are of seven bits, which no longer letter of UTF-8 contains
  const letters = latinText(xmp);
  const kept = letters.replace(THUMBNAILS, '');
  const bytes = kept.length === letters.length ? xmp : latinBytes(kept);
  return bytes.length <= mostBytes ? bytes : null;
}

const THUMBNAILS = /<(\w+:Thumbnails)\b[^>]*>[\s\S]*?<\/\1>/g;

function latinText(bytes: Uint8Array): string {
  let text = '';
  for (let at = 0; at < bytes.length; at += 4096)
    text += String.fromCharCode(...bytes.subarray(at, at + 4096));
  return text;
}
