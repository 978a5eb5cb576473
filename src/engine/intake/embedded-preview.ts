import { openTiffDirectory, type TiffDirectory } from './tiff-directory.ts';

/** Source of the tag numbers: TIFF 6.0, section 22 and Exif (CIPA DC-008), table 4; 330 TIFF/EP (ISO 12234-2), from memory. */
const TAG = {
  compression: 259,
  stripOffsets: 273,
  stripByteCounts: 279,
  jpegAt: 513,
  jpegBytes: 514,
  innerDirectories: 330,
} as const;
/** JPEG of the older and the newer kind. */
const JPEG_COMPRESSIONS = [6, 7];
const MOST_DIRECTORIES = 16;

/**
 * The largest JPEG that a raw file laid out as a TIFF, or an Exif block, holds beside its picture; `null` where none is
 * found. It need not decode: a sensor's own data may be coded by a JPEG of a kind that no browser reads.
 */
export function embeddedPreview(block: Uint8Array): Uint8Array | null {
  let best: Uint8Array | null = null;
  for (const directory of directoriesOf(block)) {
    for (const [at, bytes] of jpegsOf(directory)) {
      const found = block.subarray(at, at + bytes);
      const isJpeg = found.length === bytes && found[0] === 0xff && found[1] === 0xd8 && isOrdinary(found);
      if (isJpeg && bytes > (best?.length ?? 0)) best = found;
    }
  }
  return best;
}

function directoriesOf(block: Uint8Array): TiffDirectory[] {
  const seen = new Set<number>();
  const found: TiffDirectory[] = [];
  const waiting: (number | null)[] = [null];
  while (waiting.length > 0 && found.length < MOST_DIRECTORIES) {
    const at = waiting.shift()!;
    if (at === 0 || (at !== null && seen.has(at))) continue;
    if (at !== null) seen.add(at);
    const directory = openTiffDirectory(block, at);
    if (directory === null) continue;
    found.push(directory);
    waiting.push(directory.next, ...(directory.numbers(TAG.innerDirectories, MOST_DIRECTORIES) ?? []));
  }
  return found;
}

function jpegsOf(directory: TiffDirectory): [at: number, bytes: number][] {
  const found: [number, number][] = [];
  const [at, bytes] = [directory.number(TAG.jpegAt), directory.number(TAG.jpegBytes)];
  if (at !== null && bytes !== null) found.push([at, bytes]);
  if (!JPEG_COMPRESSIONS.includes(directory.number(TAG.compression) ?? 0)) return found;
  const strips = directory.numbers(TAG.stripOffsets, 1);
  const counts = directory.numbers(TAG.stripByteCounts, 1);
  if (strips?.length === 1 && counts?.length === 1) found.push([strips[0]!, counts[0]!]);
  return found;
}

/** Whether its first frame is baseline, extended or progressive: the kinds that pictures are shown by. ITU-T T.81, table B.1. */
function isOrdinary(jpeg: Uint8Array): boolean {
  for (let at = 2; at + 4 <= jpeg.length && jpeg[at] === 0xff; ) {
    const marker = jpeg[at + 1]!;
    if (marker >= 0xc0 && marker <= 0xcf && marker !== 0xc4 && marker !== 0xc8 && marker !== 0xcc)
      return marker <= 0xc2;
    at += 2 + ((jpeg[at + 2]! << 8) | jpeg[at + 3]!);
  }
  return false;
}
