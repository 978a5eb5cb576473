import { bytesOfNumber, bytesOfType, type TiffField } from './tiff-field.ts';
import { type PinnedPiece, type TiffTree, tiffBlockOf } from './tiff-layout.ts';

/** What a file's Exif says, taken apart: to be written anew without the thumbnail, or into a TIFF's own directory. */
export interface ExifTree {
  readonly littleEndian: boolean;
  /** The first directory's entries that say something about the picture, none about how its pixels are stored. */
  readonly main: readonly TiffField[];
  /** Exif and GPS directories, by the tags that point to them from the first one. */
  readonly children: TiffTree['children'];
  /**
   * A maker's own note, at the place where it stood. Its inner offsets count from the block's beginning, or from its
   * own, and its numbers mostly stand in the block's byte order: both hold as long as place and order are kept.
   */
  readonly makerNote: PinnedPiece | null;
}

const EXIF_DIRECTORY = 34665;
const GPS_DIRECTORY = 34853;
const INTEROPERABILITY_DIRECTORY = 40965;
const MAKER_NOTE = 37500;

/**
 * Entries of the first directory that describe a picture's storage and would be wrong, or mislead, in another file.
 * Source: TIFF 6.0, appendix A; 330 (further directories), 700 (XMP, which states size and storage again): TIFF
 * supplements.
 */
const ABOUT_STORAGE = new Set([
  ...[254, 255, 256, 257, 258, 259, 262, 263, 264, 265, 266, 273, 277, 278, 279, 280, 281, 284, 288, 289],
  ...[290, 291, 292, 293, 301, 317, 320, 322, 323, 324, 325, 330, 332, 338, 339, 340, 341, 342, 347],
  ...[512, 513, 514, 515, 517, 518, 519, 520, 521, 529, 530, 531, 532, 700, 34675],
  ...[34377, 37724], // an editor's own: previews and layers of the picture as it was
]);

/** A note deeper in than any JPEG can hold stands behind a TIFF's pixels: the block would be padded up to there. */
const DEEPEST_NOTE = 1 << 20;

const MOST_ENTRIES = 1024;

/**
 * Takes an Exif block apart; the second directory, which holds the thumbnail of the picture as it was, is left behind.
 * Damaged entries are left out. `null` where the block is none.
 */
export function exifTree(block: Uint8Array): ExifTree | null {
  if (block.length < 8) return null;
  const view = new DataView(block.buffer, block.byteOffset, block.byteLength);
  const order = view.getUint16(0);
  if (order !== 0x4949 && order !== 0x4d4d) return null;
  const littleEndian = order === 0x4949;
  if (view.getUint16(2, littleEndian) !== 42) return null;
  const room = { bytes: block.length };
  const directoryAt = (start: number) => entriesAt(block, view, start, littleEndian, room);
  const first = directoryAt(view.getUint32(4, littleEndian));
  if (!first) return null;
  const follow = ({ entries }: Directory, tag: number) => {
    const pointer = entries.find((entry) => entry.tag === tag);
    return pointer ? directoryAt(view.getUint32(pointer.at, littleEndian)) : null;
  };
  const exif = follow(first, EXIF_DIRECTORY);
  const gps = follow(first, GPS_DIRECTORY);
  const interoperability = exif && follow(exif, INTEROPERABILITY_DIRECTORY);
  const note = exif?.entries.find(({ tag }) => tag === MAKER_NOTE);
  const plain = ({ entries }: Directory, without: (tag: number) => boolean) =>
    entries
      .filter(({ tag }) => !POINTERS.has(tag) && !without(tag))
      .map(({ at: _, ...field }): TiffField => field);
  const child = (tag: number, directory: Directory | null, within: TiffTree['children'] = []) =>
    directory ? [{ tag, tree: { fields: plain(directory, (t) => t === MAKER_NOTE), children: within } }] : [];
  return {
    littleEndian,
    main: plain(first, (tag) => ABOUT_STORAGE.has(tag)),
    children: [
      ...child(EXIF_DIRECTORY, exif, child(INTEROPERABILITY_DIRECTORY, interoperability)),
      ...child(GPS_DIRECTORY, gps),
    ],
    makerNote: note && isKept(note) ? { at: note.at, bytes: note.bytes } : null,
  };
}

function isKept(note: Directory['entries'][number]) {
  return note.at >= 8 && note.at <= DEEPEST_NOTE && note.bytes.length > 4;
}

const POINTERS = new Set([EXIF_DIRECTORY, GPS_DIRECTORY, INTEROPERABILITY_DIRECTORY]);

/** The tree as a block of its own, in its own byte order, the maker's note in its place unless it is to be left out. */
export function exifBlockOf(tree: ExifTree, withMakerNote = true): Uint8Array {
  const note = withMakerNote ? tree.makerNote : null;
  return tiffBlockOf({ fields: tree.main, children: withNote(tree, note) }, tree.littleEndian, note);
}

/** The tree's Exif and GPS directories, the maker's note an entry of the first again. */
export function withNote({ children }: ExifTree, note: PinnedPiece | null): TiffTree['children'] {
  if (!note) return children;
  const field = { tag: MAKER_NOTE, type: 7, count: note.bytes.length, bytes: note.bytes };
  return children.map(({ tag, tree }) =>
    tag === EXIF_DIRECTORY
      ? { tag, tree: { fields: [...tree.fields, field], children: tree.children } }
      : { tag, tree },
  );
}

/**
 * The tree in little-endian order. A maker's note is kept only where that was its order before: what its bytes mean is
 * the maker's secret, so that they can't be turned.
 */
export function littleEndianTree(tree: ExifTree): ExifTree {
  if (tree.littleEndian) return tree;
  const turnedTree = ({ fields, children }: TiffTree): TiffTree => ({
    fields: fields.map(turned),
    children: children.map((child) => ({ tag: child.tag, tree: turnedTree(child.tree) })),
  });
  const { fields, children } = turnedTree({ fields: tree.main, children: tree.children });
  return { littleEndian: true, main: fields, children, makerNote: null };
}

function turned(field: TiffField): TiffField {
  const size = bytesOfNumber(field.type);
  const { bytes } = field;
  if (size === 1) return field;
  return { ...field, bytes: bytes.map((_, i) => bytes[i - (i % size) + size - 1 - (i % size)]!) };
}

interface Directory {
  readonly entries: readonly (TiffField & { readonly at: number })[];
}

function entriesAt(
  block: Uint8Array,
  view: DataView,
  start: number,
  littleEndian: boolean,
  room: { bytes: number },
): Directory | null {
  if (!(start >= 8 && start + 2 <= block.length)) return null;
  const count = view.getUint16(start, littleEndian);
  if (count === 0 || count > MOST_ENTRIES) return null;
  const there = Math.min(count, Math.floor((block.length - start - 2) / 12));
  const entries = new Map<number, TiffField & { at: number }>();
  for (let index = 0; index < there; index++) {
    const entry = start + 2 + 12 * index;
    const tag = view.getUint16(entry, littleEndian);
    const type = view.getUint16(entry + 2, littleEndian);
    const values = view.getUint32(entry + 4, littleEndian);
    const length = bytesOfType(type) * values;
    if (length === 0) continue;
    const at = length <= 4 ? entry + 8 : view.getUint32(entry + 8, littleEndian);
    if (at + length > block.length || entries.has(tag)) continue;
    // values that overlap could make far more of a block than it holds
    if (length > room.bytes) continue;
    room.bytes -= length;
    entries.set(tag, { tag, type, count: values, bytes: block.subarray(at, at + length), at });
  }
  return { entries: [...entries.values()] };
}
