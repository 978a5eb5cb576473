import { openTiffDirectory, type TiffDirectory } from './tiff-directory.ts';
import { damagedTiff, unreadTiff } from './tiff-refusals.ts';

const TAG = {
  newSubfileType: 254,
  imageWidth: 256,
  compression: 259,
  photometric: 262,
  directories: 330,
  dngVersion: 50706,
} as const;

/** Colour filter array, and linear raw: TIFF/EP (ISO 12234-2) and the DNG specification. */
const RAW_PHOTOMETRICS = [32803, 34892];
/** Compressions that makers' raw files alone have [M]. */
const RAW_COMPRESSIONS = [32767, 32769, 34713, 65535];
/** A reduced picture (bit 0) or a transparency mask (bit 2) of another one: TIFF 6.0, NewSubfileType. */
const NOT_THE_PICTURE = 0b101;
const MOST_PAGES = 4096;
const MOST_INNER_DIRECTORIES = 16;

export interface TiffPage {
  readonly directory: TiffDirectory;
  /** Whether it is the file's very first directory, which the notes stand in. */
  readonly isFirst: boolean;
  /** How many full-size pictures the file has. */
  readonly pictures: number;
}

/**
 * Finds the first full-size picture of a TIFF among its pages. Each directory is looked at once, so that no chain of
 * offsets can loop. `null` where a sensor's own cells are held: a camera's raw file laid out as a TIFF.
 *
 * @throws {@link EngineError} `unreadable-file`; `unsupported-file` for BigTIFF.
 */
export function firstTiffPage(bytes: Uint8Array): TiffPage | null {
  if (bytes[2] === 43 || bytes[3] === 43)
    throw unreadTiff('is a BigTIFF (64-bit offsets)', 'as a plain TIFF of at most 4 GB, or as a 16-bit PNG');
  const seen = new Set<number>();
  let first: TiffDirectory | null = null;
  let found: TiffDirectory | null = null;
  let pictures = 0;
  let offset: number | null = null;
  while (seen.size < MOST_PAGES) {
    const page: TiffDirectory | null = openTiffDirectory(bytes, offset);
    if (!page) break;
    first ??= page;
    if (isRaw(page)) return null;
    for (const inner of page.numbers(TAG.directories, MOST_INNER_DIRECTORIES) ?? []) {
      const directory = openTiffDirectory(bytes, inner);
      if (directory && isRaw(directory)) return null;
    }
    const kind = page.number(TAG.newSubfileType) ?? 0;
    if ((kind & NOT_THE_PICTURE) === 0 && page.number(TAG.imageWidth) !== null) {
      found ??= page;
      pictures++;
    }
    if (page.next === 0 || seen.has(page.next)) break;
    seen.add(page.next);
    offset = page.next;
  }
  if (!first) throw damagedTiff('it ends before its first directory, or that is empty');
  if (found) return { directory: found, isFirst: found === first, pictures };
  // a reduced picture whose full one stands elsewhere is how makers lay out raw files
  if (first.numbers(TAG.directories)) return null;
  throw damagedTiff('none of its directories describes a full-size picture');
}

function isRaw(directory: TiffDirectory): boolean {
  return (
    directory.number(TAG.dngVersion) !== null ||
    RAW_PHOTOMETRICS.includes(directory.number(TAG.photometric) ?? 0) ||
    RAW_COMPRESSIONS.includes(directory.number(TAG.compression) ?? 0)
  );
}
