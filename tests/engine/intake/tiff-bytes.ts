import { deflateSync } from 'node:zlib';

export type TiffTag = readonly [tag: number, type: 1 | 2 | 3 | 4 | 7, values: readonly number[]];

/** A TIFF as the tests write it themselves; what is left out is as plain as it can be. */
export interface TiffRecipe {
  readonly order?: 'II' | 'MM';
  readonly widthPx: number;
  readonly heightPx: number;
  /** Interleaved. */
  readonly samples: ArrayLike<number>;
  readonly channels?: number;
  readonly depth?: number;
  readonly isFloat?: boolean;
  readonly photometric?: number;
  readonly compression?: 'none' | 'deflate' | 'packbits';
  readonly predictor?: 1 | 2 | 3;
  readonly planar?: boolean;
  readonly tile?: readonly [widthPx: number, heightPx: number];
  readonly rowsPerStrip?: number;
  /** Put in, or instead of what the recipe makes. */
  readonly tags?: readonly TiffTag[];
}

const TYPE_BYTES: Readonly<Record<number, number>> = { 1: 1, 2: 1, 3: 2, 4: 4, 7: 1 };

export function tiffFile(recipe: TiffRecipe): Uint8Array {
  return tiffOfPages([recipe]);
}

/** A chain of pictures; the byte order is the first one's. */
export function tiffOfPages(pages: readonly TiffRecipe[]): Uint8Array {
  const order = pages[0]!.order ?? 'II';
  const little = order === 'II';
  const parts: Buffer[] = [Buffer.alloc(8)];
  let length = 8;
  const append = (bytes: Uint8Array) => {
    const at = length;
    parts.push(Buffer.from(bytes), Buffer.alloc(bytes.length % 2));
    length += bytes.length + (bytes.length % 2);
    return at;
  };
  const number = (value: number, bytes: number) => {
    const out = Buffer.alloc(bytes);
    if (little) out.writeUIntLE(value, 0, bytes);
    else out.writeUIntBE(value, 0, bytes);
    return out;
  };
  parts[0] = Buffer.concat([Buffer.from(order), number(42, 2), number(0, 4)]);
  let pointer: { part: number; at: number } = { part: 0, at: 4 };
  for (const page of pages) {
    const pieces = piecesOf({ ...page, order });
    const offsets = pieces.map(append);
    const tags = new Map(
      [...tagsOf(page, offsets, pieces), ...(page.tags ?? [])].map((tag) => [tag[0], tag]),
    );
    const entries = [...tags.values()]
      .sort((a, b) => a[0] - b[0])
      .map(([tag, type, values]) => {
        const bytes = Buffer.concat(values.map((value) => number(value, TYPE_BYTES[type]!)));
        const field =
          bytes.length <= 4
            ? Buffer.concat([bytes, Buffer.alloc(4 - bytes.length)])
            : number(append(bytes), 4);
        return Buffer.concat([number(tag, 2), number(type, 2), number(values.length, 4), field]);
      });
    const directory = Buffer.concat([number(entries.length, 2), ...entries, number(0, 4)]);
    parts[pointer.part]!.set(number(length, 4), pointer.at);
    pointer = { part: parts.length, at: directory.length - 4 };
    append(directory);
  }
  return new Uint8Array(Buffer.concat(parts));
}

function tagsOf(recipe: TiffRecipe, offsets: number[], pieces: Buffer[]): TiffTag[] {
  const { widthPx, heightPx, channels = 1, depth = 8, tile, rowsPerStrip = heightPx } = recipe;
  const compression = { none: 1, deflate: 8, packbits: 32773 }[recipe.compression ?? 'none'];
  const counts = pieces.map(({ length }) => length);
  return [
    [256, 4, [widthPx]],
    [257, 4, [heightPx]],
    [258, 3, Array<number>(channels).fill(depth)],
    [259, 3, [compression]],
    [262, 3, [recipe.photometric ?? (channels > 2 ? 2 : 1)]],
    [277, 3, [channels]],
    [284, 3, [recipe.planar ? 2 : 1]],
    [317, 3, [recipe.predictor ?? 1]],
    [339, 3, Array<number>(channels).fill(recipe.isFloat ? 3 : 1)],
    ...(tile
      ? ([
          [322, 4, [tile[0]]],
          [323, 4, [tile[1]]],
          [324, 4, offsets],
          [325, 4, counts],
        ] satisfies TiffTag[])
      : ([
          [273, 4, offsets],
          [278, 4, [rowsPerStrip]],
          [279, 4, counts],
        ] satisfies TiffTag[])),
  ];
}

function piecesOf(recipe: TiffRecipe): Buffer[] {
  const { widthPx, heightPx, channels = 1, tile, planar, samples, compression = 'none' } = recipe;
  const [pieceWidth, pieceHeight] = tile ?? [widthPx, recipe.rowsPerStrip ?? heightPx];
  const groups = planar ? Array.from({ length: channels }, (_, c) => [c]) : [[...Array(channels).keys()]];
  const pieces: Buffer[] = [];
  for (const group of groups)
    for (let top = 0; top < heightPx; top += pieceHeight)
      for (let left = 0; left < widthPx; left += pieceWidth) {
        const rows: Buffer[] = [];
        for (let y = top; y < (tile ? top + pieceHeight : Math.min(heightPx, top + pieceHeight)); y++) {
          const row: number[] = [];
          for (let x = left; x < left + pieceWidth; x++)
            for (const c of group)
              row.push(x < widthPx && y < heightPx ? samples[(y * widthPx + x) * channels + c]! : 0);
          rows.push(rowBytes(row, group.length, recipe));
        }
        const plain = Buffer.concat(rows);
        if (compression === 'deflate') pieces.push(deflateSync(plain));
        else pieces.push(compression === 'packbits' ? Buffer.concat(rows.map(packed)) : plain);
      }
  return pieces;
}

function rowBytes(row: number[], channels: number, recipe: TiffRecipe): Buffer {
  const { depth = 8, isFloat = false, predictor = 1, order = 'II' } = recipe;
  if (depth % 8 !== 0) return packedBits(row, depth);
  const size = depth / 8;
  const codes = isFloat ? row.map((value) => floatCode(value, depth)) : row;
  const bytes = Buffer.alloc(codes.length * size);
  const less = (i: number) =>
    predictor === 2 && i >= channels ? codes[i]! - codes[i - channels]! : codes[i]!;
  codes.forEach((_, i) => {
    const code = ((less(i) % 2 ** depth) + 2 ** depth) % 2 ** depth;
    if (predictor === 3 || order === 'MM') bytes.writeUIntBE(code, i * size, size);
    else bytes.writeUIntLE(code, i * size, size);
  });
  if (predictor !== 3) return bytes;
  const byRank = Buffer.from(
    bytes.map((_, at) => bytes[(at % codes.length) * size + Math.floor(at / codes.length)]!),
  );
  return Buffer.from(byRank.map((byte, at) => byte - (at >= channels ? byRank[at - channels]! : 0)));
}

function floatCode(value: number, depth: number): number {
  const view = new DataView(new ArrayBuffer(4));
  view.setFloat32(0, value);
  const bits = view.getUint32(0);
  if (depth === 32) return bits;
  // a half for what the tests hold: normal numbers whose fraction fits, and 0
  return value === 0
    ? 0
    : ((bits >>> 16) & 0x8000) | ((((bits >>> 23) & 255) - 112) << 10) | ((bits >>> 13) & 1023);
}

function packedBits(row: number[], depth: number): Buffer {
  const bits = row.map((code) => code.toString(2).padStart(depth, '0')).join('');
  const bytes = bits.match(/.{1,8}/g) ?? [];
  return Buffer.from(bytes.map((byte) => Number.parseInt(byte.padEnd(8, '0'), 2)));
}

/** PackBits with runs of two and more, literals else. */
function packed(row: Buffer): Buffer {
  const out: number[] = [];
  for (let at = 0; at < row.length; ) {
    let run = 1;
    while (run < 128 && row[at + run] === row[at]) run++;
    if (run > 1) out.push(257 - run, row[at]!);
    else out.push(0, row[at]!);
    at += run;
  }
  return Buffer.from(out);
}
