import { openTiffDirectory, type TiffDirectory } from './tiff-directory.ts';

const TAG = {
  stripOffsets: 273,
  stripBytes: 279,
  tileOffsets: 324,
  tileBytes: 325,
  directories: 330,
} as const;
const MOST_DIRECTORIES = 32;
const MOST_PIECES = 65536;

/** Whether a file laid out as a TIFF names directories or pieces of pictures that lie beyond its end. */
export function endsEarly(bytes: Uint8Array): boolean {
  const waiting: (number | null)[] = [null];
  const seen = new Set<number | null>();
  while (waiting.length > 0 && seen.size < MOST_DIRECTORIES) {
    const offset = waiting.pop()!;
    if (seen.has(offset)) continue;
    seen.add(offset);
    if (offset !== null && offset + 2 > bytes.length) return true;
    const directory = openTiffDirectory(bytes, offset);
    if (!directory) continue;
    if (lastByte(directory, TAG.stripOffsets, TAG.stripBytes) > bytes.length) return true;
    if (lastByte(directory, TAG.tileOffsets, TAG.tileBytes) > bytes.length) return true;
    waiting.push(...(directory.numbers(TAG.directories, MOST_DIRECTORIES) ?? []));
    if (directory.next !== 0) waiting.push(directory.next);
  }
  return false;
}

function lastByte(directory: TiffDirectory, offsetsTag: number, bytesTag: number): number {
  const offsets = directory.numbers(offsetsTag, MOST_PIECES) ?? [];
  const counts = directory.numbers(bytesTag, MOST_PIECES) ?? [];
  let last = 0;
  offsets.forEach((offset, i) => {
    last = Math.max(last, offset + (counts[i] ?? 0));
  });
  return last;
}
