import { LONG, type TiffField } from './tiff-field.ts';

/** A directory and the ones it points to by tag. */
export interface TiffTree {
  readonly fields: readonly TiffField[];
  readonly children: readonly { readonly tag: number; readonly tree: TiffTree }[];
}

/** A piece that has to stand where it stood, for offsets inside it count from the block's beginning. */
export interface PinnedPiece {
  readonly at: number;
  readonly bytes: Uint8Array;
}

/**
 * Lays a tree of directories out as a TIFF block: header, then each directory followed by its values. A pinned piece
 * keeps its place, and the rest goes around it. Every piece begins on an even byte, as TIFF 6.0 (section 2) asks.
 */
export function tiffBlockOf(
  tree: TiffTree,
  littleEndian: boolean,
  pinned: PinnedPiece | null = null,
): Uint8Array {
  const pieces: PinnedPiece[] = pinned ? [pinned] : [];
  let next = 8;
  const reserve = (length: number): number => {
    const overlaps = pinned && next < pinned.at + pinned.bytes.length && next + length > pinned.at;
    const at = even(overlaps ? pinned.at + pinned.bytes.length : next);
    next = at + even(length);
    return at;
  };
  const place = ({ fields, children }: TiffTree): number => {
    const entries = [
      ...fields.map((field) => ({ field, child: null as TiffTree | null })),
      ...children.map(({ tag, tree: child }) => ({
        field: { tag, type: LONG, count: 1, bytes: new Uint8Array(4) },
        child,
      })),
    ].sort((a, b) => a.field.tag - b.field.tag);
    const directory = new Uint8Array(2 + 12 * entries.length + 4); // the last four: no directory follows
    const at = reserve(directory.length);
    const view = new DataView(directory.buffer);
    view.setUint16(0, entries.length, littleEndian);
    entries.forEach(({ field, child }, index) => {
      const entry = 2 + 12 * index;
      view.setUint16(entry, field.tag, littleEndian);
      view.setUint16(entry + 2, field.type, littleEndian);
      view.setUint32(entry + 4, field.count, littleEndian);
      if (child) view.setUint32(entry + 8, place(child), littleEndian);
      else if (pinned && field.bytes === pinned.bytes) view.setUint32(entry + 8, pinned.at, littleEndian);
      else if (field.bytes.length <= 4) directory.set(field.bytes, entry + 8);
      else {
        const valueAt = reserve(field.bytes.length);
        view.setUint32(entry + 8, valueAt, littleEndian);
        pieces.push({ at: valueAt, bytes: field.bytes });
      }
    });
    pieces.push({ at, bytes: directory });
    return at;
  };
  const first = place(tree);
  const block = new Uint8Array(Math.max(next, pinned ? pinned.at + pinned.bytes.length : 0));
  const view = new DataView(block.buffer);
  view.setUint16(0, littleEndian ? 0x4949 : 0x4d4d);
  view.setUint16(2, 42, littleEndian);
  view.setUint32(4, first, littleEndian);
  for (const piece of pieces) block.set(piece.bytes, piece.at);
  return block;
}

function even(length: number): number {
  return length + (length & 1);
}
