import { joined } from './exif-block.ts';

/** What a written DNG says of its cells; tags left out are not written. */
export interface DngOptions {
  /** The whole mosaic, margins and all, one value a cell. */
  readonly cells: Uint16Array;
  readonly widthPx: number;
  readonly heightPx: number;
  /** Colours of the active area's first cells, four or 36 that repeat; `null` writes no mosaic but `cells` as linear red, green, blue. */
  readonly order: string | null;
  /** Bits of a stored value; fewer than 16 are packed. */
  readonly bits: 12 | 14 | 16;
  readonly activeArea?: {
    readonly top: number;
    readonly left: number;
    readonly bottom: number;
    readonly right: number;
  };
  readonly black?: { readonly rows: number; readonly columns: number; readonly levels: readonly number[] };
  readonly columnBlack?: readonly number[];
  readonly rowBlack?: readonly number[];
  readonly white?: number;
  readonly asShotNeutral?: readonly [number, number, number];
  /** XYZ to camera, row by row, for D65. */
  readonly colorMatrix?: readonly number[];
  readonly camera?: string;
  readonly orientation?: number;
  readonly exposureTime?: number;
  readonly fNumber?: number;
  readonly iso?: number;
  readonly takenAt?: string;
}

interface Tag {
  readonly id: number;
  readonly type: 1 | 2 | 3 | 4 | 5 | 10;
  readonly values: readonly number[];
}

/** Bytes of one value by TIFF type. */
const SIZES = { 1: 1, 2: 1, 3: 2, 4: 4, 5: 8, 10: 8 } as const;
const FRACTION = 1_000_000;
const D65_ILLUMINANT = 21;

/**
 * A little-endian DNG of one directory, uncompressed, in one strip. Sources: TIFF 6.0, sections 2 and 8; Digital
 * Negative specification 1.6, chapter 4.
 */
export function dngBytes(options: DngOptions): Uint8Array {
  const { cells, widthPx, heightPx, order, bits, activeArea, black, white } = options;
  const stored = bits === 16 ? wholeWords(cells) : packed(cells, widthPx * (order ? 1 : 3), bits);
  const text = (id: number, value: string): Tag => ({
    id,
    type: 2,
    values: [...new TextEncoder().encode(`${value}\0`)],
  });
  const one = (id: number, type: Tag['type'], ...values: number[]): Tag => ({ id, type, values });
  const channels = order ? 1 : 3;
  const exif: Tag[] = [
    ...(options.exposureTime ? [one(33434, 5, options.exposureTime)] : []),
    ...(options.fNumber ? [one(33437, 5, options.fNumber)] : []),
    ...(options.iso ? [one(34855, 3, options.iso)] : []),
    ...(options.takenAt ? [text(36867, options.takenAt)] : []),
  ];
  const camera = options.camera ?? 'Testbench One';
  const tags: Tag[] = [
    one(254, 4, 0),
    one(256, 4, widthPx),
    one(257, 4, heightPx),
    one(258, 3, ...Array.from({ length: channels }, () => bits)),
    one(259, 3, 1),
    one(262, 3, order ? 32803 : 34892),
    text(271, camera.split(' ')[0]!),
    text(272, camera),
    one(273, 4, 0), // strip offset, filled in below
    one(274, 3, options.orientation ?? 1),
    one(277, 3, channels),
    one(278, 4, heightPx),
    one(279, 4, stored.length),
    one(284, 3, 1),
    ...(order
      ? [
          one(33421, 3, Math.sqrt(order.length), Math.sqrt(order.length)),
          one(33422, 1, ...[...order].map((letter) => 'RGB'.indexOf(letter))),
        ]
      : []),
    ...(exif.length > 0 ? [one(34665, 4, 0)] : []),
    one(50706, 1, 1, 4, 0, 0),
    one(50707, 1, 1, 1, 0, 0),
    text(50708, camera),
    ...(order ? [one(50711, 3, 1)] : []),
    ...(black ? [one(50713, 3, black.rows, black.columns), one(50714, 5, ...black.levels)] : []),
    ...(options.columnBlack ? [one(50715, 10, ...options.columnBlack)] : []),
    ...(options.rowBlack ? [one(50716, 10, ...options.rowBlack)] : []),
    ...(white ? [one(50717, 4, ...Array.from({ length: channels }, () => white))] : []),
    ...(options.colorMatrix ? [one(50721, 10, ...options.colorMatrix)] : []),
    ...(options.asShotNeutral ? [one(50728, 5, ...options.asShotNeutral)] : []),
    ...(options.colorMatrix ? [one(50778, 3, D65_ILLUMINANT)] : []),
    ...(activeArea
      ? [one(50829, 4, activeArea.top, activeArea.left, activeArea.bottom, activeArea.right)]
      : []),
  ];
  const exifAt = 8 + directoryBytes(tags);
  const stripAt = exifAt + (exif.length > 0 ? directoryBytes(exif) : 0);
  const filled = tags.map((tag) =>
    tag.id === 273 ? one(273, 4, stripAt) : tag.id === 34665 ? one(34665, 4, exifAt) : tag,
  );
  const header = Uint8Array.of(0x49, 0x49, 42, 0, 8, 0, 0, 0);
  return joined([
    header,
    directory(filled, 8),
    ...(exif.length > 0 ? [directory(exif, exifAt)] : []),
    stored,
  ]);
}

const even = (length: number) => length + (length % 2);
const valueBytes = ({ type, values }: Tag) => SIZES[type] * values.length;

function directoryBytes(tags: readonly Tag[]): number {
  const spilled = tags.reduce((sum, tag) => sum + (valueBytes(tag) > 4 ? even(valueBytes(tag)) : 0), 0);
  return 2 + 12 * tags.length + 4 + spilled;
}

function directory(tags: readonly Tag[], start: number): Uint8Array {
  const bytes = new Uint8Array(directoryBytes(tags));
  const view = new DataView(bytes.buffer);
  view.setUint16(0, tags.length, true);
  let spill = 2 + 12 * tags.length + 4;
  tags.forEach((tag, index) => {
    const at = 2 + 12 * index;
    view.setUint16(at, tag.id, true);
    view.setUint16(at + 2, tag.type, true);
    view.setUint32(at + 4, tag.values.length, true);
    const fits = valueBytes(tag) <= 4;
    if (!fits) view.setUint32(at + 8, start + spill, true);
    tag.values.forEach((value, i) => {
      writeValue(view, (fits ? at + 8 : spill) + i * SIZES[tag.type], tag.type, value);
    });
    if (!fits) spill += even(valueBytes(tag));
  });
  return bytes;
}

function writeValue(view: DataView, at: number, type: Tag['type'], value: number): void {
  if (type === 1 || type === 2) view.setUint8(at, value);
  else if (type === 3) view.setUint16(at, value, true);
  else if (type === 4) view.setUint32(at, value, true);
  else {
    view.setInt32(at, Math.round(value * FRACTION), true);
    view.setInt32(at + 4, FRACTION, true);
  }
}

function wholeWords(cells: Uint16Array): Uint8Array {
  const bytes = new Uint8Array(cells.length * 2);
  const view = new DataView(bytes.buffer);
  for (let i = 0; i < cells.length; i++) view.setUint16(2 * i, cells[i]!, true);
  return bytes;
}

/** High bits first, each row beginning on a byte: TIFF 6.0, section 4, BitsPerSample. */
function packed(cells: Uint16Array, rowValues: number, bits: number): Uint8Array {
  const rowBytes = Math.ceil((rowValues * bits) / 8);
  const rows = cells.length / rowValues;
  const bytes = new Uint8Array(rowBytes * rows);
  for (let row = 0, from = 0; row < rows; row++) {
    let waiting = 0;
    let held = 0;
    let at = row * rowBytes;
    for (let i = 0; i < rowValues; i++) {
      waiting = (waiting << bits) | cells[from++]!;
      for (held += bits; held >= 8; held -= 8) bytes[at++] = waiting >> (held - 8);
      waiting &= (1 << held) - 1;
    }
    if (held > 0) bytes[at] = waiting << (8 - held);
  }
  return bytes;
}
