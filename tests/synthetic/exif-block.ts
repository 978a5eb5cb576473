/** What an Exif block may say; tags left out are not written. */
export interface ExifFacts {
  readonly orientation?: number;
  /** Exposure time as a fraction, e.g. [1, 125]. */
  readonly exposureTime?: readonly [number, number];
  /** f-number as a fraction, e.g. [56, 10]. */
  readonly fNumber?: readonly [number, number];
  readonly iso?: number;
  readonly focalLengthMm?: number;
  /** In metres as a fraction; [0xffffffff, 1] is infinity, [0, 1] unknown. */
  readonly subjectDistance?: readonly [number, number];
  /** As Exif writes it: "2026:03:01 10:20:30". */
  readonly takenAt?: string;
  /** 1 sRGB, 65535 uncalibrated. */
  readonly colourSpace?: number;
  readonly model?: string;
  /** 0 automatic, 1 set by hand. */
  readonly whiteBalance?: 0 | 1;
}

interface Tag {
  readonly id: number;
  readonly type: number;
  readonly count: number;
  readonly bytes: Uint8Array;
}

/** A big-endian TIFF structure with the tags given. Source: Exif 2.3 (CIPA DC-008), tables 4 and 7. */
export function exifBlock(facts: ExifFacts): Uint8Array {
  const main: Tag[] = [];
  if (facts.model) main.push(ascii(0x0110, facts.model));
  if (facts.orientation !== undefined) main.push(short(0x0112, facts.orientation));
  const exif: Tag[] = [];
  if (facts.exposureTime) exif.push(rational(0x829a, facts.exposureTime));
  if (facts.fNumber) exif.push(rational(0x829d, facts.fNumber));
  if (facts.iso !== undefined) exif.push(short(0x8827, facts.iso));
  if (facts.takenAt) exif.push(ascii(0x9003, facts.takenAt));
  if (facts.subjectDistance) exif.push(rational(0x9206, facts.subjectDistance));
  if (facts.focalLengthMm !== undefined)
    exif.push(rational(0x920a, [Math.round(facts.focalLengthMm * 10), 10]));
  if (facts.colourSpace !== undefined) exif.push(short(0xa001, facts.colourSpace));
  if (facts.whiteBalance !== undefined) exif.push(short(0xa403, facts.whiteBalance));
  const mainBytes = 2 + 12 * (main.length + (exif.length ? 1 : 0)) + 4 + overflow(main);
  if (exif.length) main.push(long(0x8769, 8 + mainBytes));
  const header = Uint8Array.of(0x4d, 0x4d, 0, 42, 0, 0, 0, 8);
  return joined([header, directory(main, 8), ...(exif.length ? [directory(exif, 8 + mainBytes)] : [])]);
}

export function joined(parts: readonly Uint8Array[]): Uint8Array {
  const whole = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    whole.set(part, at);
    at += part.length;
  }
  return whole;
}

function directory(tags: readonly Tag[], start: number): Uint8Array {
  const bytes = new Uint8Array(2 + 12 * tags.length + 4 + overflow(tags));
  const view = new DataView(bytes.buffer);
  view.setUint16(0, tags.length);
  let spill = 2 + 12 * tags.length + 4;
  tags.forEach((tag, index) => {
    const at = 2 + 12 * index;
    view.setUint16(at, tag.id);
    view.setUint16(at + 2, tag.type);
    view.setUint32(at + 4, tag.count);
    if (tag.bytes.length <= 4) bytes.set(tag.bytes, at + 8);
    else {
      view.setUint32(at + 8, start + spill);
      bytes.set(tag.bytes, spill);
      spill += even(tag.bytes.length);
    }
  });
  return bytes;
}

const even = (length: number) => length + (length % 2);

const overflow = (tags: readonly Tag[]) =>
  tags.reduce((sum, tag) => sum + (tag.bytes.length > 4 ? even(tag.bytes.length) : 0), 0);

const short = (id: number, value: number): Tag => ({
  id,
  type: 3,
  count: 1,
  bytes: Uint8Array.of(value >> 8, value & 255),
});

const long = (id: number, value: number): Tag => ({ id, type: 4, count: 1, bytes: uint32(value) });

const rational = (id: number, [over, under]: readonly [number, number]): Tag => ({
  id,
  type: 5,
  count: 1,
  bytes: joined([uint32(over), uint32(under)]),
});

function ascii(id: number, text: string): Tag {
  const bytes = new TextEncoder().encode(`${text}\0`);
  return { id, type: 2, count: bytes.length, bytes };
}

export function uint32(value: number): Uint8Array {
  return Uint8Array.of((value >>> 24) & 255, (value >>> 16) & 255, (value >>> 8) & 255, value & 255);
}
