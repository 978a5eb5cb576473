import { EngineError } from '../engine-error.ts';
import type { PngChunks } from './png-chunks.ts';
import type { PngPass } from './png-passes.ts';

/** Where a PNG's rows go: samples as a StoredImage holds them. */
export interface PngRowWriter {
  readonly channels: 1 | 2 | 3 | 4;
  readonly bitsPerSample: 8 | 16;
  readonly samples: Uint8Array | Uint16Array;
  /** Writes one row, its filter undone, that starts at `row[at]`; `y` counts within the pass. */
  write(row: Uint8Array, at: number, pass: PngPass, y: number): void;
}

/**
 * Makes the writer for a picture's depth and colour. 16 bits become native-endian; depths below 8 are stretched to 0
 * to 255 (exactly: 255 is a multiple of 1, 3 and 15); a palette becomes RGB, with alpha where its entries carry one.
 *
 * @throws {@link EngineError} `unreadable-file` where a palette is needed and missing or malformed.
 */
export function pngRowWriter(chunks: PngChunks): PngRowWriter {
  const { header } = chunks;
  const pixels = header.widthPx * header.heightPx;
  const channels = header.storedChannels as 1 | 2 | 3 | 4;
  if (header.colour === 'palette') return paletteWriter(chunks);
  if (header.depth === 16) {
    const samples = new Uint16Array(pixels * channels);
    return {
      channels,
      bitsPerSample: 16,
      samples,
      write: sixteenBitWrite(samples, header.widthPx, channels),
    };
  }
  const samples = new Uint8Array(pixels * channels);
  const write =
    header.depth === 8
      ? eightBitWrite(samples, header.widthPx, channels)
      : fewBitWrite(samples, header.widthPx, header.depth);
  return { channels, bitsPerSample: 8, samples, write };
}

function sixteenBitWrite(samples: Uint16Array, widthPx: number, channels: number): PngRowWriter['write'] {
  return (row, at, pass, y) => {
    let out = ((pass.startY + y * pass.stepY) * widthPx + pass.startX) * channels;
    const skip = (pass.stepX - 1) * channels;
    let from = at;
    if (skip === 0) {
      for (const end = at + pass.rowBytes; from < end; from += 2)
        samples[out++] = (row[from]! << 8) | row[from + 1]!;
      return;
    }
    for (let x = 0; x < pass.widthPx; x++, out += skip)
      for (let c = 0; c < channels; c++, from += 2) samples[out++] = (row[from]! << 8) | row[from + 1]!;
  };
}

function eightBitWrite(samples: Uint8Array, widthPx: number, channels: number): PngRowWriter['write'] {
  return (row, at, pass, y) => {
    let out = ((pass.startY + y * pass.stepY) * widthPx + pass.startX) * channels;
    if (pass.stepX === 1) {
      samples.set(row.subarray(at, at + pass.rowBytes), out);
      return;
    }
    const skip = (pass.stepX - 1) * channels;
    let from = at;
    for (let x = 0; x < pass.widthPx; x++, out += skip)
      for (let c = 0; c < channels; c++) samples[out++] = row[from++]!;
  };
}

function fewBitWrite(samples: Uint8Array, widthPx: number, depth: number): PngRowWriter['write'] {
  const stretch = 255 / ((1 << depth) - 1);
  return (row, at, pass, y) => {
    const rowStart = (pass.startY + y * pass.stepY) * widthPx + pass.startX;
    for (let x = 0; x < pass.widthPx; x++)
      samples[rowStart + x * pass.stepX] = packedSample(row, at, x, depth) * stretch;
  };
}

function paletteWriter({ header, palette, transparency }: PngChunks): PngRowWriter {
  if (!palette || palette.length === 0 || palette.length % 3 !== 0 || palette.length > 768)
    throw new EngineError(
      'unreadable-file',
      `The PNG is damaged: its palette has ${palette?.length ?? 0} bytes, 3 to 768 in threes were needed. Export it again.`,
    );
  const channels = transparency ? 4 : 3;
  const { widthPx, heightPx, depth } = header;
  const samples = new Uint8Array(widthPx * heightPx * channels);
  const write: PngRowWriter['write'] = (row, at, pass, y) => {
    const rowStart = (pass.startY + y * pass.stepY) * widthPx + pass.startX;
    for (let x = 0; x < pass.widthPx; x++) {
      const index = packedSample(row, at, x, depth);
      const out = (rowStart + x * pass.stepX) * channels;
      // an index past the palette's end reads black: typed arrays turn undefined into 0
      samples[out] = palette[index * 3]!;
      samples[out + 1] = palette[index * 3 + 1]!;
      samples[out + 2] = palette[index * 3 + 2]!;
      if (transparency) samples[out + 3] = transparency[index] ?? 255;
    }
  };
  return { channels, bitsPerSample: 8, samples, write };
}

/** Sample x of a row with 1, 2, 4 or 8 bits each, the leftmost in the high bits. */
function packedSample(row: Uint8Array, at: number, x: number, depth: number): number {
  const bit = x * depth;
  return (row[at + (bit >> 3)]! >> (8 - depth - (bit & 7))) & ((1 << depth) - 1);
}
