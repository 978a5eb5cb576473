import type { CorrectedPicture } from '../correct/corrected-picture.ts';
import { XMP_LEAD } from '../intake/jpeg-segments.ts';
import { jpegWithoutNotes } from '../intake/jpeg-without-notes.ts';
import type { Platform } from '../intake/platform.ts';
import { exifToWrite } from './exif-to-write.ts';
import { latinBytes } from './png-chunk-bytes.ts';
import { xmpToWrite } from './xmp-to-write.ts';

/** A segment's length has two bytes and counts itself. */
const MOST_SEGMENT_BYTES = 65535 - 2;
const EXIF_LEAD = 'Exif\0\0';
export const MOST_EXIF_BYTES = MOST_SEGMENT_BYTES - EXIF_LEAD.length;
export const MOST_XMP_BYTES = MOST_SEGMENT_BYTES - XMP_LEAD.length;
const ICC_LEAD = 'ICC_PROFILE\0';

/**
 * A JPEG at the platform's best, as the pieces of a file in their order. What the encoder says of itself is taken out;
 * the source's Exif, XMP and profile go in, the profile over as many segments as it needs.
 * Source: Exif (CIPA DC-008), 4.7.2 (APP1); ICC.1:2010, annex B.4 (APP2).
 *
 * @throws whatever the platform's encoder rejects with.
 */
export async function writeJpeg(picture: CorrectedPicture, platform: Platform): Promise<Uint8Array[]> {
  const { widthPx, heightPx } = picture;
  const encoded = await platform.encodeJpeg({ widthPx, heightPx, samples: opaqueRgba(picture) }, 1);
  const bare = jpegWithoutNotes(encoded);
  const notesAt = afterFirstSegment(bare);
  const notes: Uint8Array[] = [];
  const exif = exifToWrite(picture, MOST_EXIF_BYTES);
  if (exif) notes.push(segmentHead(0xe1, exif.length, EXIF_LEAD), exif);
  const xmp = xmpToWrite(picture, MOST_XMP_BYTES);
  if (xmp) notes.push(segmentHead(0xe1, xmp.length, XMP_LEAD), xmp);
  if (picture.iccProfile?.length) notes.push(...iccSegments(picture.iccProfile));
  return [bare.subarray(0, notesAt), ...notes, bare.subarray(notesAt)];
}

/** Behind the JFIF mark, where there is one: both it and Exif ask to be first, and readers look for it there. */
function afterFirstSegment(jpeg: Uint8Array): number {
  return jpeg[2] === 0xff && jpeg[3] === 0xe0 ? 4 + ((jpeg[4]! << 8) | jpeg[5]!) : 2;
}

function iccSegments(profile: Uint8Array): Uint8Array[] {
  const room = MOST_SEGMENT_BYTES - ICC_LEAD.length - 2;
  const count = Math.ceil(profile.length / room);
  if (count > 255) return []; // 16 megabytes: no profile, and there is no number for it
  return Array.from({ length: count }, (_, index) => {
    const piece = profile.subarray(index * room, (index + 1) * room);
    return [segmentHead(0xe2, piece.length, ICC_LEAD, index + 1, count), piece];
  }).flat();
}

function segmentHead(
  marker: number,
  dataBytes: number,
  lead: string,
  ...more: readonly number[]
): Uint8Array {
  const letters = [...latinBytes(lead), ...more];
  const length = 2 + letters.length + dataBytes;
  return Uint8Array.of(0xff, marker, length >> 8, length & 255, ...letters);
}

function opaqueRgba({ channels, samples, bitsPerSample }: CorrectedPicture): Uint8ClampedArray {
  if (bitsPerSample !== 8) throw new RangeError(`a JPEG holds 8 bits a sample, not ${bitsPerSample}`);
  const rgba = new Uint8ClampedArray((samples.length / channels) * 4);
  const [green, blue] = channels > 2 ? [1, 2] : [0, 0];
  for (let from = 0, to = 0; to < rgba.length; from += channels, to += 4) {
    rgba[to] = samples[from]!;
    rgba[to + 1] = samples[from + green]!;
    rgba[to + 2] = samples[from + blue]!;
    rgba[to + 3] = 255;
  }
  return rgba;
}
