import { crc32 } from 'node:zlib';
import { boxesIn } from '../../src/engine/intake/heif-boxes.ts';
import type { Anatomy, Stretch } from './bend-bytes.ts';

const viewOf = (file: Uint8Array) => new DataView(file.buffer, file.byteOffset, file.byteLength);

/** Chunks behind the signature, their checksums to be mended. */
export const PNG: Anatomy = {
  stretches: pngChunks,
  mend(file) {
    for (const [from, end] of pngChunks(file))
      viewOf(file).setUint32(end - 4, crc32(file.subarray(from + 4, end - 4)));
    return file;
  },
};

function pngChunks(file: Uint8Array): Stretch[] {
  const chunks: Stretch[] = [];
  for (let at = 8; at + 12 <= file.length; ) {
    const end = at + 12 + viewOf(file).getUint32(at);
    if (end > file.length) break;
    chunks.push([at, end]);
    at = end;
  }
  return chunks;
}

/** Segments up to the scan's end; what is coded in between counts as one. */
export const JPEG: Anatomy = {
  stretches(file) {
    const segments: Stretch[] = [];
    for (let at = 2; at + 4 <= file.length && file[at] === 0xff; ) {
      const marker = file[at + 1]!;
      let end = at + 2 + viewOf(file).getUint16(at + 2);
      if (marker === 0xda)
        while (
          end + 1 < file.length &&
          !(file[end] === 0xff && file[end + 1]! > 0 && (file[end + 1]! & 0xf8) !== 0xd0)
        )
          end++;
      if (end > file.length) break;
      segments.push([at, end]);
      at = end;
    }
    return segments;
  },
};

/** The header, and the entries of every directory that the first one leads to. */
export const TIFF: Anatomy = {
  stretches(file) {
    if (file.length < 8) return [];
    const little = file[0] === 0x49;
    const view = viewOf(file);
    const entries: Stretch[] = [[0, 8]];
    const waiting = [view.getUint32(4, little)];
    for (let seen = 0; waiting.length > 0 && seen < 8; seen++) {
      const start = waiting.shift()!;
      if (start + 2 > file.length) continue;
      const count = Math.min(view.getUint16(start, little), 64);
      entries.push([start, Math.min(file.length, start + 2)]);
      for (let i = 0; i < count; i++) {
        const at = start + 2 + 12 * i;
        if (at + 12 > file.length) break;
        entries.push([at, at + 12]);
        if ([330, 34665, 34853].includes(view.getUint16(at, little)))
          waiting.push(view.getUint32(at + 8, little));
      }
      const nextAt = start + 2 + 12 * count;
      if (nextAt + 4 <= file.length) waiting.push(view.getUint32(nextAt, little));
    }
    return entries;
  },
};

/** A RIFF file's chunks, and its length to be mended. */
export const RIFF: Anatomy = {
  stretches(file) {
    const chunks: Stretch[] = [];
    for (let at = 12; at + 8 <= file.length; ) {
      const length = viewOf(file).getUint32(at + 4, true);
      const end = at + 8 + length + (length % 2);
      if (end > file.length) break;
      chunks.push([at, end]);
      at = end;
    }
    return chunks;
  },
  mend(file) {
    if (file.length >= 8) viewOf(file).setUint32(4, file.length - 8, true);
    return file;
  },
};

/** Boxes, and the boxes in those that hold some. */
export const BOXES: Anatomy = {
  stretches(file) {
    const found: Stretch[] = [];
    const walk = (from: number, end: number) => {
      for (const box of listed(file, from, end)) {
        found.push([box.from - 8, box.end]);
        if (box.type === 'meta') walk(box.from + 4, box.end);
        if (['iprp', 'ipco'].includes(box.type)) walk(box.from, box.end);
      }
    };
    walk(0, file.length);
    return found;
  },
};

function listed(file: Uint8Array, from: number, end: number): ReturnType<typeof boxesIn> {
  try {
    return boxesIn(file, from, end);
  } catch {
    return []; // bent so that no box can be told any more
  }
}

/** A profile's header and table of elements. */
export const ICC: Anatomy = {
  stretches(file) {
    if (file.length < 132) return [];
    const count = Math.min(viewOf(file).getUint32(128), 40);
    const stretches: Stretch[] = [[0, 132]];
    for (let i = 0; i < count && 144 + 12 * i <= file.length; i++) {
      stretches.push([132 + 12 * i, 144 + 12 * i]);
      const at = viewOf(file).getUint32(136 + 12 * i);
      const end = at + viewOf(file).getUint32(140 + 12 * i);
      if (end <= file.length && at < end) stretches.push([at, end]);
    }
    return stretches;
  },
};
