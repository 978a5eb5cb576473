/** One entry of a TIFF directory, its values as bytes in the byte order of the block that it is written to. */
export interface TiffField {
  readonly tag: number;
  /** 1 to 13 of TIFF 6.0 and its supplements, or 129 for text in UTF-8 (Exif 3.0). */
  readonly type: number;
  readonly count: number;
  readonly bytes: Uint8Array;
}

export const BYTE = 1;
export const ASCII = 2;
export const SHORT = 3;
export const LONG = 4;
export const RATIONAL = 5;
export const UNDEFINED = 7;

/** Bytes of one value by type; 0 for types that are not known here. */
export function bytesOfType(type: number): number {
  return type === 129 ? 1 : (TYPE_BYTES[type] ?? 0);
}

const TYPE_BYTES = [0, 1, 1, 2, 4, 8, 1, 1, 2, 4, 8, 4, 8, 4];

/** Bytes that are turned together where the byte order changes: a fraction is two numbers of four. */
export function bytesOfNumber(type: number): number {
  return type === 5 || type === 10 ? 4 : bytesOfType(type);
}

export function shortField(tag: number, ...values: readonly number[]): TiffField {
  return numberField(tag, SHORT, 2, values);
}

export function longField(tag: number, ...values: readonly number[]): TiffField {
  return numberField(tag, LONG, 4, values);
}

export function rationalField(tag: number, over: number, under: number): TiffField {
  return { ...numberField(tag, RATIONAL, 4, [over, under]), count: 1 };
}

export function bytesField(tag: number, type: number, bytes: Uint8Array): TiffField {
  return { tag, type, count: bytes.length, bytes };
}

/** Seven-bit text; what lies beyond becomes a question mark, as TIFF's ASCII has no room for it. */
export function textField(tag: number, text: string): TiffField {
  const codes = [...text].map((letter) => (letter.charCodeAt(0) < 128 ? letter.charCodeAt(0) : 63));
  return bytesField(tag, ASCII, Uint8Array.from([...codes, 0]));
}

function numberField(tag: number, type: number, size: 2 | 4, values: readonly number[]): TiffField {
  const bytes = new Uint8Array(size * values.length);
  const view = new DataView(bytes.buffer);
  values.forEach((value, i) => {
    if (size === 2) view.setUint16(2 * i, value, true);
    else view.setUint32(4 * i, value, true);
  });
  return { tag, type, count: values.length, bytes };
}
