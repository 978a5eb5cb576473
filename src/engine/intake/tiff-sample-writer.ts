import type { TiffHeader } from './tiff-header.ts';

/** A piece of a picture: codes row by row, and where they belong. */
export interface TiffPiece {
  readonly codes: Uint8Array | Uint16Array;
  /** Codes from one row to the next, and from one pixel to the next. */
  readonly rowCodes: number;
  readonly channels: number;
  /** Which of the file's channels the first one here is. */
  readonly firstChannel: number;
  readonly x: number;
  readonly y: number;
  readonly columns: number;
  readonly rows: number;
}

/** Where a TIFF's pieces go: samples as a StoredImage holds them. */
export interface TiffSampleWriter {
  readonly channels: 1 | 2 | 3 | 4;
  readonly bitsPerSample: 8 | 16;
  readonly samples: Uint8Array | Uint16Array;
  write(piece: TiffPiece): void;
}

/** Makes the writer for a picture's depth and colours; channels beyond those and alpha are left aside. */
export function tiffSampleWriter(header: TiffHeader): TiffSampleWriter {
  if (header.palette) return paletteWriter(header, header.palette);
  const { widthPx, heightPx, depth, isFloat, colour, alpha } = header;
  const colours = colour === 'rgb' ? 3 : 1;
  const channels = (colours + (alpha === 'none' ? 0 : 1)) as 1 | 2 | 3 | 4;
  const bitsPerSample = depth <= 8 ? 8 : 16;
  const samples = new (bitsPerSample === 8 ? Uint8Array : Uint16Array)(widthPx * heightPx * channels);
  const codeBits = isFloat ? 16 : depth;
  const inverted = colour === 'white-is-zero';
  const ofColour =
    codeBits === bitsPerSample && !inverted ? null : stretch(codeBits, bitsPerSample, inverted);
  const ofAlpha = codeBits === bitsPerSample ? null : stretch(codeBits, bitsPerSample, false);
  return {
    channels,
    bitsPerSample,
    samples,
    write(piece) {
      const { codes, firstChannel } = piece;
      const isWhole = piece.channels === channels && !ofColour;
      for (let row = 0; row < piece.rows; row++) {
        const from = row * piece.rowCodes;
        const to = ((piece.y + row) * widthPx + piece.x) * channels;
        if (isWhole) {
          samples.set(codes.subarray(from, from + piece.columns * channels), to);
          continue;
        }
        for (let c = 0; c < piece.channels && firstChannel + c < channels; c++) {
          const table = firstChannel + c < colours ? ofColour : ofAlpha;
          let out = to + firstChannel + c;
          let at = from + c;
          for (let x = 0; x < piece.columns; x++, at += piece.channels, out += channels)
            samples[out] = table ? table[codes[at]!]! : codes[at]!;
        }
      }
    },
  };
}

/** Every code at another depth, white staying white. */
function stretch(fromBits: number, toBits: number, inverted: boolean): Uint16Array {
  const most = 2 ** fromBits - 1;
  const white = 2 ** toBits - 1;
  return Uint16Array.from({ length: most + 1 }, (_, code) =>
    Math.round(((inverted ? most - code : code) * white) / most),
  );
}

function paletteWriter(header: TiffHeader, palette: Uint16Array): TiffSampleWriter {
  const { widthPx, heightPx, depth } = header;
  const entries = 2 ** depth;
  const { colours, bitsPerSample } = atItsDepth(palette);
  const samples = new (bitsPerSample === 8 ? Uint8Array : Uint16Array)(widthPx * heightPx * 3);
  return {
    channels: 3,
    bitsPerSample,
    samples,
    write({ codes, rowCodes, channels, firstChannel, x, y, columns, rows }) {
      if (firstChannel > 0) return;
      for (let row = 0; row < rows; row++)
        for (let column = 0; column < columns; column++) {
          const index = codes[row * rowCodes + column * channels]!;
          const out = ((y + row) * widthPx + x + column) * 3;
          for (let c = 0; c < 3; c++) samples[out + c] = colours[c * entries + index]!;
        }
    },
  };
}

/** A palette's 16 bits mostly are 8, written twice, or above zeros, or (by a widespread slip) alone. */
function atItsDepth(palette: Uint16Array): { colours: Uint16Array; bitsPerSample: 8 | 16 } {
  if (palette.every((value) => value < 256)) return { colours: palette, bitsPerSample: 8 };
  const isTwice = palette.every((value) => value >> 8 === (value & 255));
  const isAbove = palette.every((value) => (value & 255) === 0);
  return isTwice || isAbove
    ? { colours: palette.map((value) => value >> 8), bitsPerSample: 8 }
    : { colours: palette, bitsPerSample: 16 };
}
