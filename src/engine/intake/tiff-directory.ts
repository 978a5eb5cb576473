/** One image file directory of a TIFF block; every look-up is bounded by the block and never throws. */
export interface TiffDirectory {
  /** First value of a numeric entry; `null` where absent, damaged, or a fraction over 0. */
  number(tag: number): number | null;
  /** An ASCII entry up to its first zero; `null` where absent or damaged. */
  text(tag: number): string | null;
  /** All values of an entry of whole numbers; `null` where absent or damaged, or where there are more than asked for. */
  numbers(tag: number, most?: number): Float64Array | null;
  /** All values of a numeric entry of any kind; `null` where absent, damaged or not finite, or more than asked for. */
  values(tag: number, most: number): Float64Array | null;
  /** An entry of single bytes as it stands; `null` where absent or damaged. */
  bytes(tag: number): Uint8Array | null;
  /** Where the next directory of the chain begins; 0 where this one is the last. */
  readonly next: number;
}

/** More entries than any camera writes; a count above it is damage. */
const MOST_ENTRIES = 1024;
const LONGEST_TEXT_BYTES = 4096;
/** Bytes of one value by TIFF type 1 to 13: byte, ASCII, short, long, rational, and their signed kin, float, double, directory. */
const TYPE_BYTES = [0, 1, 1, 2, 4, 8, 1, 1, 2, 4, 8, 4, 8, 4];
const WHOLE_NUMBERS = [1, 3, 4, 13];

/**
 * Opens the directory at an offset, the first one where that is `null`. Returns `null` where there is none.
 * Source: TIFF 6.0, section 2 (entries of 12 bytes; values of up to 4 bytes stand in the entry itself).
 */
export function openTiffDirectory(block: Uint8Array, offset: number | null): TiffDirectory | null {
  if (block.length < 8) return null;
  const view = new DataView(block.buffer, block.byteOffset, block.byteLength);
  const order = view.getUint16(0);
  if (order !== 0x4949 && order !== 0x4d4d) return null;
  const little = order === 0x4949;
  if (view.getUint16(2, little) !== 42) return null;
  const start = offset ?? view.getUint32(4, little);
  if (!(start >= 8 && start + 2 <= block.length)) return null;
  const entries = view.getUint16(start, little);
  if (entries === 0 || entries > MOST_ENTRIES) return null;
  // entries that a cut-off block no longer holds are left out rather than making all of them unreadable
  const there = Math.min(entries, Math.floor((block.length - start - 2) / 12));

  const find = (tag: number): { type: number; count: number; at: number } | null => {
    for (let entry = 0; entry < there; entry++) {
      const at = start + 2 + entry * 12;
      if (view.getUint16(at, little) !== tag) continue;
      const type = view.getUint16(at + 2, little);
      const count = view.getUint32(at + 4, little);
      const bytes = (TYPE_BYTES[type] ?? 0) * count;
      if (bytes === 0) return null;
      const valueAt = bytes <= 4 ? at + 8 : view.getUint32(at + 8, little);
      return valueAt + bytes <= block.length ? { type, count, at: valueAt } : null;
    }
    return null;
  };

  const end = start + 2 + entries * 12;
  return {
    next: end + 4 <= block.length ? view.getUint32(end, little) : 0,
    numbers(tag, most = Number.POSITIVE_INFINITY) {
      const entry = find(tag);
      if (!entry || !WHOLE_NUMBERS.includes(entry.type) || entry.count > most) return null;
      const { type, at } = entry;
      const size = TYPE_BYTES[type]!;
      return Float64Array.from(
        { length: entry.count },
        (_, i) => numberAt(view, at + i * size, type, little)!,
      );
    },
    values(tag, most) {
      const entry = find(tag);
      if (!entry || entry.count > most) return null;
      const { type, at, count } = entry;
      const size = TYPE_BYTES[type]!;
      const values = Float64Array.from(
        { length: count },
        (_, i) => numberAt(view, at + i * size, type, little) ?? Number.NaN,
      );
      return values.every(Number.isFinite) ? values : null;
    },
    bytes(tag) {
      const entry = find(tag);
      if (!entry || TYPE_BYTES[entry.type] !== 1) return null;
      return block.subarray(entry.at, entry.at + entry.count);
    },
    number(tag) {
      const entry = find(tag);
      const value = entry && numberAt(view, entry.at, entry.type, little);
      return value !== null && Number.isFinite(value) ? value : null;
    },
    text(tag) {
      const entry = find(tag);
      if (entry?.type !== 2) return null;
      const bytes = block.subarray(entry.at, entry.at + Math.min(entry.count, LONGEST_TEXT_BYTES));
      const end = bytes.indexOf(0);
      return String.fromCharCode(...(end < 0 ? bytes : bytes.subarray(0, end)));
    },
  };
}

function numberAt(view: DataView, at: number, type: number, little: boolean): number | null {
  switch (type) {
    case 1:
      return view.getUint8(at);
    case 3:
      return view.getUint16(at, little);
    case 4:
    case 13:
      return view.getUint32(at, little);
    case 5:
      return view.getUint32(at, little) / view.getUint32(at + 4, little);
    case 8:
      return view.getInt16(at, little);
    case 9:
      return view.getInt32(at, little);
    case 10:
      return view.getInt32(at, little) / view.getInt32(at + 4, little);
    case 11:
      return view.getFloat32(at, little);
    case 12:
      return view.getFloat64(at, little);
    default:
      return null;
  }
}
