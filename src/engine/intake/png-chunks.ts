import { EngineError } from '../engine-error.ts';
import { crc32 } from './crc32.ts';
import { type PngHeader, readPngHeader } from './png-header.ts';

/** A PNG's chunks that matter here, each with its checksum found right; `null` where absent. */
export interface PngChunks {
  readonly header: PngHeader;
  readonly palette: Uint8Array | null;
  readonly transparency: Uint8Array | null;
  /** Pieces of one zlib stream, views into the file. */
  readonly pixelPieces: readonly Uint8Array[];
  /** Data of the chunks of that name, the first of each. */
  readonly iccp: Uint8Array | null;
  readonly srgb: Uint8Array | null;
  readonly gama: Uint8Array | null;
  readonly chrm: Uint8Array | null;
  readonly cicp: Uint8Array | null;
  readonly exif: Uint8Array | null;
  /** The XMP packet of an iTXt chunk; a compressed one, which its standard advises against, is not read. */
  readonly xmp: Uint8Array | null;
}

/**
 * Walks a PNG's chunks, every checksum checked, and nothing allocated that grows with what the file claims.
 * Source: ISO/IEC 15948:2004, clauses 5 and 11; cICP and eXIf: Portable Network Graphics, third edition (W3C, 2025).
 *
 * @throws {@link EngineError} `unreadable-file`, `too-large`, `too-small`.
 */
export function readPngChunks(bytes: Uint8Array): PngChunks {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const first = new Map<string, Uint8Array>();
  const pixelPieces: Uint8Array[] = [];
  let header: PngHeader | null = null;
  let xmp: Uint8Array | null = null;
  let at = 8;
  for (;;) {
    if (at + 12 > bytes.length) throw cutShort(bytes.length);
    const length = view.getUint32(at);
    const name = String.fromCharCode(...bytes.subarray(at + 4, at + 8));
    const end = at + 8 + length;
    if (!/^[A-Za-z]{4}$/.test(name)) throw damaged(`byte ${at + 4} holds no chunk name`);
    if (end + 4 > bytes.length) throw cutShort(bytes.length);
    if (crc32(bytes, at + 4, end) !== view.getUint32(end))
      throw damaged(`the checksum of its ${name} chunk is wrong`);
    const data = bytes.subarray(at + 8, end);
    if (header === null) {
      if (name !== 'IHDR') throw damaged(`it begins with ${name}, IHDR was needed`);
      header = readPngHeader(data);
    } else if (name === 'IDAT') pixelPieces.push(data);
    else if (name === 'IEND') break;
    else if (name === 'iTXt') xmp ??= xmpOf(data);
    else if (!first.has(name)) {
      if (/^[A-Z]/.test(name) && name !== 'PLTE')
        throw damaged(`its ${name} chunk is needed and not known here`);
      first.set(name, data);
    }
    at = end + 4;
  }
  const chunk = (name: string) => first.get(name) ?? null;
  return {
    header,
    palette: chunk('PLTE'),
    transparency: chunk('tRNS'),
    pixelPieces,
    iccp: chunk('iCCP'),
    srgb: chunk('sRGB'),
    gama: chunk('gAMA'),
    chrm: chunk('cHRM'),
    cicp: chunk('cICP'),
    exif: chunk('eXIf'),
    xmp,
  };
}

/** What stands before the packet: keyword, no compression, neither language nor translated keyword. */
export const XMP_TEXT_LEAD = 'XML:com.adobe.xmp\0\0\0\0\0';

function xmpOf(data: Uint8Array): Uint8Array | null {
  const lead = String.fromCharCode(...data.subarray(0, XMP_TEXT_LEAD.length));
  return lead === XMP_TEXT_LEAD ? data.subarray(XMP_TEXT_LEAD.length) : null;
}

function cutShort(length: number): EngineError {
  return new EngineError(
    'unreadable-file',
    `The PNG ends after ${length} bytes, before its end mark: it was cut short. Copy or export it again.`,
  );
}

function damaged(found: string): EngineError {
  return new EngineError('unreadable-file', `The PNG is damaged: ${found}. Copy or export it again.`);
}
