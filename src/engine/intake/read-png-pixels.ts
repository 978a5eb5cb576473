import { EngineError } from '../engine-error.ts';
import type { Platform } from './platform.ts';
import type { PngChunks } from './png-chunks.ts';
import { pngPasses } from './png-passes.ts';
import { type PngRowWriter, pngRowWriter } from './png-row-writer.ts';
import { unfilterRow } from './unfilter-row.ts';

/** What deflate can reach at most: 258 bytes from a two-bit code, about 1032 to 1 (RFC 1951, 3.2.5). */
const STEEPEST_INFLATION = 1032;

/**
 * Inflates, unfilters and places a PNG's samples, row by row as the stream comes.
 * Nothing is allocated where the compressed bytes could not possibly hold the claimed picture. Bytes after the last
 * row are not looked at.
 *
 * @throws {@link EngineError} `unreadable-file`.
 */
export async function readPngPixels(
  chunks: PngChunks,
  platform: Platform,
  onProgress?: (fraction: number) => void,
): Promise<PngRowWriter> {
  const { header, pixelPieces } = chunks;
  const passes = pngPasses(header);
  const bytesNeeded = passes.reduce((sum, pass) => sum + (pass.rowBytes + 1) * pass.heightPx, 0);
  const bytesThere = pixelPieces.reduce((sum, piece) => sum + piece.length, 0);
  if (bytesThere * STEEPEST_INFLATION < bytesNeeded) throw tooLittle(bytesThere, bytesNeeded);
  const writer = pngRowWriter(chunks);
  const bytesPerPixel = Math.max(1, (header.storedChannels * header.depth) >> 3);
  // two rows in one buffer, each led by its filter byte; they swap places after every row
  const stride = 1 + Math.max(...passes.map((pass) => pass.rowBytes));
  const rows = new Uint8Array(2 * stride);
  let current = 0;
  let filled = 0;
  let passIndex = 0;
  let y = 0;
  let bytesRead = 0;
  let nextReport = 0;
  try {
    for await (const piece of platform.inflateZlib(pixelPieces)) {
      let from = 0;
      while (from < piece.length && passIndex < passes.length) {
        const pass = passes[passIndex]!;
        const take = Math.min(pass.rowBytes + 1 - filled, piece.length - from);
        rows.set(piece.subarray(from, from + take), current + filled);
        filled += take;
        from += take;
        if (filled <= pass.rowBytes) break; // the row goes on in the next piece
        const above = y === 0 ? null : rows;
        const start = current + 1;
        if (
          !unfilterRow(rows[current]!, rows, start, pass.rowBytes, above, stride - current + 1, bytesPerPixel)
        )
          throw damaged(`row ${y} has filter ${rows[current]}, 0 to 4 were needed`);
        writer.write(rows, start, pass, y);
        current = stride - current;
        filled = 0;
        if (++y === pass.heightPx) {
          y = 0;
          passIndex++;
        }
      }
      bytesRead += piece.length;
      if (passIndex === passes.length) break;
      if (onProgress && bytesRead >= nextReport) {
        onProgress(Math.min(1, bytesRead / bytesNeeded));
        nextReport = bytesRead + bytesNeeded / 50;
      }
    }
  } catch (cause) {
    if (cause instanceof EngineError) throw cause;
    throw damaged('its picture data does not decompress', cause);
  }
  if (passIndex < passes.length) throw tooLittle(bytesRead, bytesNeeded);
  return writer;
}

function tooLittle(found: number, needed: number): EngineError {
  return damaged(`its picture data ends at ${found} bytes, too few for the ${needed} that its size needs`);
}

function damaged(found: string, cause?: unknown): EngineError {
  return new EngineError(
    'unreadable-file',
    `The PNG is damaged: ${found}. Copy or export it again.`,
    {},
    { cause },
  );
}
