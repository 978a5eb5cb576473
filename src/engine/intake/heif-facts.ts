import { EngineError } from '../engine-error.ts';
import { av1Colour } from './av1-colour.ts';
import type { CodePoints } from './code-points.ts';
import { asciiAt, ByteReader, boxesIn } from './heif-boxes.ts';
import { type HeifItems, type PropertyPlace, readHeifItems } from './heif-items.ts';
import { orientationOfSteps, type TurningStep } from './heif-orientation.ts';

/** What a still-picture file (AVIF, HEIC) says beside its pixels. */
export interface HeifFacts {
  /** Before any turning. */
  readonly widthPx: number;
  readonly heightPx: number;
  /** By the file's own turning; Exif's counts for nothing here. */
  readonly orientation: number;
  readonly bits: number;
  readonly iccProfile: Uint8Array | null;
  readonly codePoints: CodePoints | null;
  readonly exif: Uint8Array | null;
  readonly xmp: Uint8Array | null;
  /** A copy that asks neither for turning nor for a conversion of colours, for a decoder that would heed it. */
  readonly bare: Uint8Array;
}

/**
 * Source: ISO/IEC 23008-12 (ispe, pixi, irot, imir, colr; annex A.2.1: Exif) and 14496-12, 12.1.5 (colr), as remembered.
 *
 * @throws {@link EngineError} `unreadable-file`; `unsupported-file` for a film.
 */
export function readHeifFacts(bytes: Uint8Array, name: string): HeifFacts {
  try {
    const file = readHeifItems(bytes);
    if (!file && boxesIn(bytes, 0, bytes.length).some(({ type }) => type === 'moov')) throw movingOnly(name);
    if (!file) throw new RangeError('it describes no still picture');
    return factsOf(bytes, file);
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    throw new EngineError(
      'unreadable-file',
      `The ${name} is damaged or was cut short: ${error.message}. Copy or export it again.`,
      {},
      { cause: error },
    );
  }
}

function movingOnly(name: string): EngineError {
  return new EngineError(
    'unsupported-file',
    `The ${name} holds a film and no still picture; a still was needed. Export one of its pictures as a 16-bit TIFF or PNG.`,
  );
}

function factsOf(bytes: Uint8Array, file: HeifItems): HeifFacts {
  const own = file.places.filter(({ item }) => item === file.primary);
  const boxOf = ({ property }: PropertyPlace) => file.properties[property - 1];
  const steps: TurningStep[] = [];
  let size: { widthPx: number; heightPx: number } | null = null;
  let bits = 8;
  let iccProfile: Uint8Array | null = null;
  let codePoints: CodePoints | null = null;
  for (const place of own) {
    const box = boxOf(place);
    if (!box) continue;
    const { type, from, end } = box;
    const reader = new ByteReader(bytes, from, end);
    if (type === 'ispe') {
      reader.number(4);
      size = { widthPx: reader.number(4), heightPx: reader.number(4) };
    } else if (type === 'pixi') {
      reader.number(4);
      if (reader.number(1) > 0) bits = reader.number(1);
    } else if (type === 'irot') steps.push({ kind: 'quarters-left', count: reader.number(1) & 3 });
    else if (type === 'imir') steps.push({ kind: 'mirror', axis: reader.number(1) & 1 });
    else if (type === 'colr') {
      const kind = reader.code();
      if (kind === 'nclx') codePoints = { primaries: reader.number(2), transfer: reader.number(2) };
      else if (kind === 'prof' || kind === 'rICC') iccProfile = bytes.slice(from + 4, end);
    }
  }
  if (!size) throw new RangeError('it does not say how large its picture is');
  const data = file.data(file.primary);
  if (!data) throw new RangeError('its picture lies beyond its end');
  if (file.items.get(file.primary)?.type === 'av01') codePoints ??= av1Colour(data);
  return {
    ...size,
    orientation: orientationOfSteps(steps),
    bits,
    iccProfile,
    codePoints,
    exif: exifOf(file),
    xmp: xmpOf(file),
    bare: bareFile(bytes, file),
  };
}

/** Before the block stands how far into the item it begins. */
function exifOf(file: HeifItems): Uint8Array | null {
  const id = [...file.items].find(([, { type }]) => type === 'Exif')?.[0];
  const data = id === undefined ? null : file.data(id);
  if (!data || data.length < 4) return null;
  const from = 4 + ((data[0]! << 24) | (data[1]! << 16) | (data[2]! << 8) | data[3]!);
  return from >= 4 && from < data.length ? data.slice(from) : null;
}

function xmpOf(file: HeifItems): Uint8Array | null {
  const id = [...file.items].find(([, { contentType }]) => contentType === 'application/rdf+xml')?.[0];
  return (id === undefined ? null : file.data(id))?.slice() ?? null;
}

/**
 * Of all pictures in it, takes out the turning and the profile by pointing to no property instead, and calls stated
 * colours sRGB: then nothing is left to turn or to convert by. How luma and chroma make RGB stays as it is.
 */
function bareFile(bytes: Uint8Array, file: HeifItems): Uint8Array {
  const bare = bytes.slice();
  const view = new DataView(bare.buffer);
  for (const { property, at, size } of file.places) {
    const box = file.properties[property - 1];
    if (!box) continue;
    const kind = box.type === 'colr' ? asciiAt(bytes, box.from) : box.type;
    if (['irot', 'imir', 'prof', 'rICC'].includes(kind)) {
      if (size === 2) view.setUint16(at, 0);
      else bare[at] = 0;
    } else if (kind === 'nclx' && box.end >= box.from + 8) {
      view.setUint16(box.from + 4, 1);
      view.setUint16(box.from + 6, 13);
    }
  }
  return bare;
}
