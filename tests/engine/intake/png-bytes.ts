import { crc32, deflateSync } from 'node:zlib';
import { seededRandom } from '../../../src/engine/numeric/seeded-random.ts';

/** A PNG to be written by hand, so that the reader is not tested against an encoder of its own kind. */
export interface PngRecipe {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly depth: number;
  readonly colourType: number;
  readonly interlaced?: boolean;
  /** Stored samples, row-major and interleaved; seeded noise where left out. */
  readonly samples?: ArrayLike<number>;
  /** Filter of each row in the order of the stream; 0 to 4 in turn where left out. */
  readonly filterOf?: (row: number) => number;
  /** Chunks between the header and the pixels. */
  readonly chunks?: readonly Uint8Array[];
  readonly idatBytes?: number;
}

export const CHANNELS: Readonly<Record<number, number>> = { 0: 1, 2: 3, 3: 1, 4: 2, 6: 4 };
export const SIGNATURE = Uint8Array.of(0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a);

export function chunk(name: string, data: Uint8Array): Uint8Array {
  const bytes = new Uint8Array(12 + data.length);
  const view = new DataView(bytes.buffer);
  view.setUint32(0, data.length);
  bytes.set(Buffer.from(name, 'latin1'), 4);
  bytes.set(data, 8);
  view.setUint32(8 + data.length, crc32(bytes.subarray(4, 8 + data.length)));
  return bytes;
}

export function headerChunk(
  widthPx: number,
  heightPx: number,
  depth: number,
  colourType: number,
  interlaced = false,
): Uint8Array {
  const data = new Uint8Array(13);
  const view = new DataView(data.buffer);
  view.setUint32(0, widthPx);
  view.setUint32(4, heightPx);
  data.set([depth, colourType, 0, 0, interlaced ? 1 : 0], 8);
  return chunk('IHDR', data);
}

export function join(...parts: readonly Uint8Array[]): Uint8Array {
  return new Uint8Array(Buffer.concat(parts));
}

export function noiseSamples(count: number, depth: number, seed = 1): Uint16Array {
  const { uniform } = seededRandom(seed);
  return Uint16Array.from({ length: count }, () => Math.floor(uniform() * 2 ** depth));
}

export function pngFile(recipe: PngRecipe): Uint8Array {
  const { widthPx, heightPx, depth, colourType, interlaced = false, chunks = [], idatBytes = 1000 } = recipe;
  const channels = CHANNELS[colourType]!;
  const samples = recipe.samples ?? noiseSamples(widthPx * heightPx * channels, depth);
  const stream = deflateSync(filteredRows({ ...recipe, samples }));
  const pieces: Uint8Array[] = [];
  for (let at = 0; at < stream.length; at += idatBytes)
    pieces.push(chunk('IDAT', stream.subarray(at, at + idatBytes)));
  return join(
    SIGNATURE,
    headerChunk(widthPx, heightPx, depth, colourType, interlaced),
    ...chunks,
    ...pieces,
    chunk('IEND', new Uint8Array(0)),
  );
}

/** Every 8 × 8 block's pixels by the pass that carries them, as the standard draws it (8.2, figure 4.8). */
const PASS_OF_PIXEL = [
  '16462646',
  '77777777',
  '56565656',
  '77777777',
  '36463646',
  '77777777',
  '56565656',
  '77777777',
];

function filteredRows(recipe: PngRecipe & { samples: ArrayLike<number> }): Uint8Array {
  const { widthPx, heightPx, depth, colourType, interlaced, samples } = recipe;
  const channels = CHANNELS[colourType]!;
  const filterOf = recipe.filterOf ?? ((row) => row % 5);
  const bytesPerPixel = Math.max(1, (channels * depth) >> 3);
  const out: Uint8Array[] = [];
  let streamRow = 0;
  for (const pass of interlaced ? '1234567' : '*') {
    let above: Uint8Array | null = null;
    for (let y = 0; y < heightPx; y++) {
      const values: number[] = [];
      for (let x = 0; x < widthPx; x++) {
        if (pass !== '*' && PASS_OF_PIXEL[y % 8]![x % 8] !== pass) continue;
        for (let c = 0; c < channels; c++) values.push(samples[(y * widthPx + x) * channels + c]!);
      }
      if (values.length === 0) continue;
      const row = packed(values, depth);
      out.push(filtered(row, above, filterOf(streamRow++), bytesPerPixel));
      above = row;
    }
  }
  return join(...out);
}

function packed(values: readonly number[], depth: number): Uint8Array {
  const bits = values.map((value) => value.toString(2).padStart(depth, '0')).join('');
  return Uint8Array.from({ length: Math.ceil(bits.length / 8) }, (_, i) =>
    Number.parseInt(bits.slice(8 * i, 8 * i + 8).padEnd(8, '0'), 2),
  );
}

function filtered(
  row: Uint8Array,
  above: Uint8Array | null,
  filter: number,
  bytesPerPixel: number,
): Uint8Array {
  const out = new Uint8Array(row.length + 1);
  out[0] = filter;
  for (let i = 0; i < row.length; i++) {
    const a = i >= bytesPerPixel ? row[i - bytesPerPixel]! : 0;
    const b = above ? above[i]! : 0;
    const c = above && i >= bytesPerPixel ? above[i - bytesPerPixel]! : 0;
    const p = a + b - c;
    const nearest = [a, b, c].reduce((best, value) =>
      Math.abs(p - value) < Math.abs(p - best) ? value : best,
    );
    out[i + 1] = row[i]! - [0, a, b, Math.floor((a + b) / 2), nearest][filter]!;
  }
  return out;
}
