import { type Box, ByteReader, boxesIn } from './heif-boxes.ts';

/** One item of a still-picture file: a picture, or a note on one. */
export interface HeifItem {
  readonly type: string;
  /** Of an item of type "mime". */
  readonly contentType: string;
}

/** Where one property stands in the list of a picture. */
export interface PropertyPlace {
  readonly item: number;
  /** Counts from 1; 0 is none. */
  readonly property: number;
  /** Where in the file that number stands, and in how many bytes. */
  readonly at: number;
  readonly size: 1 | 2;
}

export interface HeifItems {
  readonly primary: number;
  readonly items: ReadonlyMap<number, HeifItem>;
  /** All properties, shared by the items. */
  readonly properties: readonly Box[];
  readonly places: readonly PropertyPlace[];
  /** An item's bytes; `null` where there are none to be had. */
  data(item: number): Uint8Array | null;
}

const MOST_ITEMS = 4096;
/** Pieces of all items together; where they take no bytes to list, a small file could claim any number. */
const MOST_PIECES = 8192;

/**
 * Reads what a still-picture file says of its items.
 * Source: ISO/IEC 14496-12, 8.11 (meta, iloc, pitm, iinf); ISO/IEC 23008-12, 9.3 (iprp, ipco, ipma), as remembered.
 *
 * @throws RangeError where a part leads outside.
 */
export function readHeifItems(bytes: Uint8Array): HeifItems | null {
  const meta = boxesIn(bytes, 0, bytes.length).find(({ type }) => type === 'meta');
  if (!meta) return null;
  const boxes = boxesIn(bytes, meta.from + 4, meta.end); // after version and flags
  const one = (type: string, of = boxes) => of.find((box) => box.type === type);
  const [pitm, iinf, iprp, iloc, idat] = ['pitm', 'iinf', 'iprp', 'iloc', 'idat'].map((type) => one(type));
  if (!pitm || !iinf || !iprp || !iloc) return null;
  const inside = boxesIn(bytes, iprp.from, iprp.end);
  const ipco = one('ipco', inside);
  if (!ipco) return null;
  const primary = new ByteReader(bytes, pitm.from + 4, pitm.end).number(versionOf(bytes, pitm) === 0 ? 2 : 4);
  const extents = readExtents(bytes, iloc);
  return {
    primary,
    items: readItems(bytes, iinf),
    properties: boxesIn(bytes, ipco.from, ipco.end),
    places: inside.filter(({ type }) => type === 'ipma').flatMap((box) => readPlaces(bytes, box)),
    data(item) {
      const { inData, pieces } = extents.get(item) ?? { inData: false, pieces: [] };
      const base = inData ? idat?.from : 0;
      if (pieces.length === 0 || base === undefined) return null;
      // pieces that lie over each other would make more of the file than there is
      if (pieces.reduce((sum, { length }) => sum + length, 0) > bytes.length) return null;
      const parts = pieces.map(({ from, length }) => bytes.subarray(base + from, base + from + length));
      if (parts.some((part, i) => part.length !== pieces[i]!.length)) return null;
      return parts.length === 1 ? parts[0]! : joined(parts);
    },
  };
}

function versionOf(bytes: Uint8Array, box: Box): number {
  return bytes[box.from]!;
}

function readItems(bytes: Uint8Array, iinf: Box): Map<number, HeifItem> {
  const items = new Map<number, HeifItem>();
  const from = iinf.from + 4 + (versionOf(bytes, iinf) === 0 ? 2 : 4);
  for (const box of boxesIn(bytes, from, iinf.end)) {
    const version = versionOf(bytes, box);
    if (box.type !== 'infe' || version < 2) continue;
    const reader = new ByteReader(bytes, box.from + 4, box.end);
    const id = reader.number(version === 2 ? 2 : 4);
    reader.number(2); // protection
    const type = reader.code();
    reader.text(); // name
    items.set(id, { type, contentType: type === 'mime' ? reader.text() : '' });
  }
  return items;
}

function readPlaces(bytes: Uint8Array, ipma: Box): PropertyPlace[] {
  const places: PropertyPlace[] = [];
  const size = bytes[ipma.from + 3]! & 1 ? 2 : 1;
  const reader = new ByteReader(bytes, ipma.from + 4, ipma.end);
  const count = Math.min(reader.number(4), MOST_ITEMS);
  for (let entry = 0; entry < count; entry++) {
    const item = reader.number(versionOf(bytes, ipma) === 0 ? 2 : 4);
    const associations = reader.number(1);
    for (let i = 0; i < associations; i++) {
      const { at } = reader;
      places.push({ item, property: reader.number(size) & (size === 2 ? 0x7fff : 0x7f), at, size });
    }
  }
  return places;
}

interface Extents {
  readonly inData: boolean;
  readonly pieces: readonly { readonly from: number; readonly length: number }[];
}

function readExtents(bytes: Uint8Array, iloc: Box): Map<number, Extents> {
  const version = versionOf(bytes, iloc);
  const reader = new ByteReader(bytes, iloc.from + 4, iloc.end);
  const sizes = [reader.number(1), reader.number(1)].flatMap((byte) => [byte >> 4, byte & 15]);
  const [offsetSize = 0, lengthSize = 0, baseSize = 0, indexSize = 0] = sizes;
  const count = Math.min(reader.number(version < 2 ? 2 : 4), MOST_ITEMS);
  const all = new Map<number, Extents>();
  let left = MOST_PIECES;
  for (let i = 0; i < count; i++) {
    const id = reader.number(version < 2 ? 2 : 4);
    const construction = version === 0 ? 0 : reader.number(2) & 15;
    const elsewhere = reader.number(2) !== 0 || construction > 1;
    const base = reader.number(baseSize);
    const extents = reader.number(2);
    left -= extents;
    if (left < 0) throw new RangeError(`its items lie in more than ${MOST_PIECES} pieces`);
    const pieces: { from: number; length: number }[] = [];
    for (let extent = 0; extent < extents; extent++) {
      if (version > 0) reader.number(indexSize);
      pieces.push({ from: base + reader.number(offsetSize), length: reader.number(lengthSize) });
    }
    all.set(id, { inData: construction === 1, pieces: elsewhere ? [] : pieces });
  }
  return all;
}

function joined(parts: readonly Uint8Array[]): Uint8Array {
  const whole = new Uint8Array(parts.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const part of parts) {
    whole.set(part, at);
    at += part.length;
  }
  return whole;
}
