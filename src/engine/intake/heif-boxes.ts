/** One box of an ISO base media file: its four-letter type, and where its payload lies in the file. */
export interface Box {
  readonly type: string;
  readonly from: number;
  readonly end: number;
}

/** More boxes than any still picture has; a list above it is damage. */
const MOST_BOXES = 4096;

/**
 * The boxes that lie next to each other in a part of a file. A box that claims to end beyond its parent ends the list
 * where `isWhole` does not ask for all.
 * Source: ISO/IEC 14496-12, 4.2 (size 1: 64 bits follow; size 0: to the end).
 *
 * @throws RangeError where a box leads outside.
 */
export function boxesIn(bytes: Uint8Array, from: number, end: number): Box[] {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const boxes: Box[] = [];
  let at = from;
  while (at + 8 <= end && boxes.length < MOST_BOXES) {
    let size = view.getUint32(at);
    let head = 8;
    if (size === 1) {
      size = view.getUint32(at + 8) * 2 ** 32 + view.getUint32(at + 12);
      head = 16;
    } else if (size === 0) size = end - at;
    if (size < head || at + size > end) throw new RangeError(`a box at byte ${at} claims ${size} bytes`);
    boxes.push({ type: asciiAt(bytes, at + 4), from: at + head, end: at + size });
    at += size;
  }
  return boxes;
}

export function asciiAt(bytes: Uint8Array, at: number): string {
  return String.fromCharCode(...bytes.subarray(at, at + 4));
}

/** Reads numbers one after another; beyond the end it throws a RangeError. */
export class ByteReader {
  private readonly view: DataView;
  private readonly end: number;
  at: number;

  constructor(bytes: Uint8Array, from: number, end: number) {
    this.view = new DataView(bytes.buffer, bytes.byteOffset, Math.min(end, bytes.length));
    this.end = end;
    this.at = from;
  }

  /** A whole number of 0, 1, 2, 4 or 8 bytes, high byte first. */
  number(size: number): number {
    const { view, at } = this;
    this.at += size;
    if (size === 0) return 0;
    if (size === 1) return view.getUint8(at);
    if (size === 2) return view.getUint16(at);
    if (size === 4) return view.getUint32(at);
    if (size === 8) return view.getUint32(at) * 2 ** 32 + view.getUint32(at + 4);
    throw new RangeError(`numbers of ${size} bytes are not known`);
  }

  /** A four-letter code. */
  code(): string {
    const letters = [0, 1, 2, 3].map(() => this.number(1));
    return String.fromCharCode(...letters);
  }

  /** Text up to its zero. */
  text(): string {
    let text = '';
    while (this.at < this.end) {
      const letter = this.number(1);
      if (letter === 0) break;
      text += String.fromCharCode(letter);
    }
    return text;
  }
}
