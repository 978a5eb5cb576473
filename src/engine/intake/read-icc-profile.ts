import { invertMatrix3, type Matrix3, type Vector3 } from '../numeric/matrix3.ts';
import { iccText } from './icc-text.ts';
import { readToneCurve, type ToneCurve } from './tone-curve.ts';

/** What an embedded profile says of a picture's codes. */
export type IccProfile =
  | {
      readonly kind: 'matrix';
      readonly description: string;
      /** Columns: XYZ of red, green and blue at full, adapted to the D50 of the connection space. */
      readonly colorants: Matrix3;
      /** XYZ of the native white to XYZ under D50 (the chad tag); `null` where absent. */
      readonly adaptation: Matrix3 | null;
      /** The media white (wtpt), whose meaning changed with version 4; `null` where absent. */
      readonly mediaWhite: Vector3 | null;
      readonly majorVersion: number;
      readonly curves: { readonly red: ToneCurve; readonly green: ToneCurve; readonly blue: ToneCurve };
    }
  | { readonly kind: 'grey'; readonly description: string; readonly curve: ToneCurve }
  /** Holds look-up tables only: read by the platform's colour-management module. */
  | { readonly kind: 'table-only'; readonly description: string; readonly channels: 1 | 3 }
  | { readonly kind: 'broken'; readonly why: string };

/**
 * Reads a profile of version 2 or 4. A profile with both a matrix and tables is read by its matrix, which describes the
 * device itself, where the tables may hold a rendering. Never throws: what can't be read comes back as `broken`.
 * Source: ICC.1:2010 (profile version 4.3), 7.2 (header), 7.3 (tag table), 8.3 (required tags), 9.2, 10.
 */
export function readIccProfile(bytes: Uint8Array): IccProfile {
  if (bytes.length === 0) return broken('it can not be unpacked, is larger than 8 MB, or lacks a piece');
  if (bytes.length < 132) return broken(`it has ${bytes.length} bytes, 132 at least were needed`);
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  if (asciiAt(bytes, 36) !== 'acsp') return broken('it lacks its signature');
  if (view.getUint32(0) > bytes.length) return broken(`it has ${bytes.length} of ${view.getUint32(0)} bytes`);
  const tags = readTagTable(bytes, view);
  if (!tags) return broken('its table of tags leads outside it');
  const description = iccText(tags.get('desc') ?? null) ?? 'unnamed profile';
  const space = asciiAt(bytes, 16);
  const hasTables = TABLES.some((tag) => tags.has(tag)) && ['XYZ ', 'Lab '].includes(asciiAt(bytes, 20));
  if (space === 'GRAY') {
    const curve = curveOf(tags, 'kTRC');
    if (!curve && hasTables) return { kind: 'table-only', description, channels: 1 };
    return curve ? { kind: 'grey', description, curve } : broken('its grey curve is missing or damaged');
  }
  if (space !== 'RGB ') return broken(`it describes ${space.trim() || 'no'} colour; RGB or grey was needed`);
  if (!tags.has('rXYZ') && hasTables) return { kind: 'table-only', description, channels: 3 };
  const columns = ['rXYZ', 'gXYZ', 'bXYZ'].map((tag) => vectorOf(tags.get(tag)));
  const [r, g, b] = columns;
  const [red, green, blue] = ['rTRC', 'gTRC', 'bTRC'].map((tag) => curveOf(tags, tag));
  if (!r || !g || !b) return broken('a colour of its matrix is missing or damaged');
  if (!red || !green || !blue) return broken('one of its curves is missing or damaged');
  const colorants: Matrix3 = [r[0], g[0], b[0], r[1], g[1], b[1], r[2], g[2], b[2]];
  if (!isInvertible(colorants) || !isWhite(colorants)) return broken('its matrix gives no white');
  const chad = matrixOf(tags.get('chad'));
  return {
    kind: 'matrix',
    description,
    colorants,
    adaptation: chad && isInvertible(chad) ? chad : null,
    mediaWhite: vectorOf(tags.get('wtpt')),
    majorVersion: bytes[8]!,
    curves: { red, green, blue },
  };
}

/** From codes to colour, by rendering intent; the connection space is XYZ or Lab (ICC.1:2010, 8.3 and 9.2). */
const TABLES = ['A2B0', 'A2B1', 'A2B2'];

/** An element of a profile as it stands, by its signature; `null` where it has none or can't be read. */
export function iccElement(bytes: Uint8Array, tag: string): Uint8Array | null {
  return iccElements(bytes)?.get(tag) ?? null;
}

/** All of them as they stand; `null` where they can't be read. */
export function iccElements(bytes: Uint8Array): ReadonlyMap<string, Uint8Array> | null {
  if (bytes.length < 132) return null;
  return readTagTable(bytes, new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength));
}

function broken(why: string): IccProfile {
  return { kind: 'broken', why };
}

/** Elements by signature; a tag that leads outside the profile makes the whole `null`. Tags may share an element. */
function readTagTable(bytes: Uint8Array, view: DataView): Map<string, Uint8Array> | null {
  const count = view.getUint32(128);
  if (132 + 12 * count > bytes.length) return null;
  const tags = new Map<string, Uint8Array>();
  for (let entry = 132; entry < 132 + 12 * count; entry += 12) {
    const from = view.getUint32(entry + 4);
    const size = view.getUint32(entry + 8);
    if (from + size > bytes.length) return null;
    tags.set(asciiAt(bytes, entry), bytes.subarray(from, from + size));
  }
  return tags;
}

function curveOf(tags: Map<string, Uint8Array>, tag: string): ToneCurve | null {
  const element = tags.get(tag);
  return element ? readToneCurve(element) : null;
}

function vectorOf(element: Uint8Array | undefined): Vector3 | null {
  const numbers = fixedNumbers(element, 'XYZ ', 3);
  return numbers && [numbers[0]!, numbers[1]!, numbers[2]!];
}

function matrixOf(element: Uint8Array | undefined): Matrix3 | null {
  return fixedNumbers(element, 'sf32', 9) as Matrix3 | null;
}

/** s15Fixed16 numbers after an element's type and four reserved bytes. */
function fixedNumbers(element: Uint8Array | undefined, type: string, count: number): number[] | null {
  if (!element || element.length < 8 + 4 * count || asciiAt(element, 0) !== type) return null;
  const view = new DataView(element.buffer, element.byteOffset, element.byteLength);
  return Array.from({ length: count }, (_, i) => view.getInt32(8 + 4 * i) / 65536);
}

function isInvertible(matrix: Matrix3): boolean {
  try {
    return invertMatrix3(matrix).every((value) => Math.abs(value) < 1e6);
  } catch {
    return false;
  }
}

/** Whether full red, green and blue add up to something like a white of luminance 1, on whatever daylight. */
function isWhite([xr, xg, xb, yr, yg, yb, zr, zg, zb]: Matrix3): boolean {
  const [x, y, z] = [xr + xg + xb, yr + yg + yb, zr + zg + zb];
  return y > 0.5 && y < 2 && x / y > 0.6 && x / y < 1.4 && z / y > 0.2 && z / y < 1.8;
}

function asciiAt(bytes: Uint8Array, at: number): string {
  return String.fromCharCode(...bytes.subarray(at, at + 4));
}
