import { fixedElement, iccBytes, nameElement } from './icc-bytes.ts';

type Colour = readonly [number, number, number];

/** A profile that holds tables alone, put together by hand. */
export interface TableRecipe {
  readonly name?: string;
  /** Version 2 writes `mft2`, version 4 `mAB `. */
  readonly major: 2 | 4;
  readonly connection: 'XYZ ' | 'Lab ';
  readonly channels?: 1 | 3;
  /** Each channel's own curve, before the table: from code to what the table is entered with, both 0 to 1. */
  readonly exponent: number;
  /** Instead of the exponent, in version 2. */
  readonly curve?: (code: number) => number;
  /** What the table holds at its nodes, XYZ or Lab. */
  readonly colourAt: (device: readonly number[]) => Colour;
  readonly nodes?: number;
}

/** Entries of a curve: codes of 8 bits lie on them, and those of 16 close enough beside a straight line. */
const ENTRIES = 4096;

export function tableProfile(recipe: TableRecipe): Uint8Array {
  const { name = 'Tables by hand', major, connection, channels = 3 } = recipe;
  const profile = iccBytes(
    {
      desc: nameElement(name),
      wtpt: fixedElement('XYZ ', [0.9642, 1, 0.8249]),
      A2B0: major === 2 ? oldTable(recipe) : newTable(recipe),
    },
    { space: channels === 1 ? 'GRAY' : 'RGB ', major },
  );
  profile.set(Buffer.from(connection, 'latin1'), 20);
  // the illuminant of the connection space, which the header states
  profile.set(fixedElement('XYZ ', [0.9642, 1, 0.8249]).subarray(8), 68);
  return profile;
}

/** Codes of the table's nodes, the first channel varying most slowly. */
function nodeCodes({ channels = 3, nodes = 2, connection, major, colourAt }: TableRecipe): number[] {
  const codes: number[] = [];
  for (let node = 0; node < nodes ** channels; node++) {
    const device = Array.from(
      { length: channels },
      (_, i) => (Math.floor(node / nodes ** (channels - 1 - i)) % nodes) / (nodes - 1),
    );
    const colour = colourAt(device);
    codes.push(...colour.map((value, i) => Math.round(codeOf(value, i, connection, major))));
  }
  return codes;
}

/** Source: ICC.1:2010, 6.3.4 and 10.10 (version 2 keeps its own coding of Lab in `mft2`). */
function codeOf(value: number, channel: number, connection: 'XYZ ' | 'Lab ', major: 2 | 4): number {
  if (connection === 'XYZ ') return value * 32768;
  if (channel === 0) return (value / 100) * (major === 2 ? 65280 : 65535);
  return (value + 128) * (major === 2 ? 256 : 257);
}

/** Source: ICC.1:2010, 10.10 (lut16Type). */
function oldTable(recipe: TableRecipe): Uint8Array {
  const { channels = 3, nodes = 2, exponent, curve: light = (code: number) => code ** exponent } = recipe;
  const curve = Array.from({ length: ENTRIES }, (_, i) => Math.round(65535 * light(i / (ENTRIES - 1))));
  const numbers = [
    ...[ENTRIES, 2],
    ...Array.from({ length: channels }, () => curve).flat(),
    ...nodeCodes(recipe),
    ...[0, 65535, 0, 65535, 0, 65535],
  ];
  const element = new Uint8Array(48 + 2 * numbers.length);
  element.set(Buffer.from('mft2', 'latin1'));
  element.set([channels, 3, nodes], 8);
  element.set(fixedElement('sf32', [1, 0, 0, 0, 1, 0, 0, 0, 1]).subarray(8), 12);
  const view = new DataView(element.buffer);
  numbers.forEach((number, i) => {
    view.setUint16(48 + 2 * i, number);
  });
  return element;
}

/** Curves, table, straight curves. Source: ICC.1:2010, 10.12 (lutAToBType) and 10.18 (parametricCurveType). */
function newTable(recipe: TableRecipe): Uint8Array {
  const { channels = 3, nodes = 2, exponent } = recipe;
  const straight = Buffer.concat([1, 2, 3].map(() => exponentCurve(1)));
  const curves = Buffer.concat(Array.from({ length: channels }, () => exponentCurve(exponent)));
  const codes = nodeCodes(recipe);
  const table = new Uint8Array(20 + ((2 * codes.length + 3) & ~3));
  table.fill(nodes, 0, channels);
  table[16] = 2;
  codes.forEach((code, i) => {
    new DataView(table.buffer).setUint16(20 + 2 * i, code);
  });
  const head = new Uint8Array(32);
  head.set(Buffer.from('mAB ', 'latin1'));
  head.set([channels, 3], 8);
  const view = new DataView(head.buffer);
  view.setUint32(12, 32);
  view.setUint32(24, 32 + straight.length);
  view.setUint32(28, 32 + straight.length + table.length);
  return new Uint8Array(Buffer.concat([head, straight, table, curves]));
}

function exponentCurve(exponent: number): Uint8Array {
  const element = new Uint8Array(16);
  element.set(Buffer.from('para', 'latin1'));
  new DataView(element.buffer).setInt32(12, Math.round(exponent * 65536));
  return element;
}
