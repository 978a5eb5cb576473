import type { TiffHeader } from './tiff-header.ts';
import { addUpFloatRows, addUpRows } from './tiff-predictor.ts';

/** What taking floating point to 16 bits lost. */
export interface FloatLosses {
  above: number;
  below: number;
}

type Storage = Pick<TiffHeader, 'depth' | 'isFloat' | 'predictor' | 'littleEndian'>;

/**
 * A piece's bytes as codes: as stored where they are whole numbers, 0 to 65535 for 0 to 1 where they are floating
 * point. The bytes, which begin a buffer of their own, may be changed and handed out again.
 */
export function tiffCodes(
  bytes: Uint8Array<ArrayBuffer>,
  rowBytes: number,
  channels: number,
  storage: Storage,
  losses: FloatLosses,
): Uint8Array | Uint16Array {
  const { depth, isFloat, predictor } = storage;
  if (depth !== 8 && depth !== 16 && depth !== 32) return unpacked(bytes, rowBytes, depth);
  const size = depth / 8;
  const isSortedByRank = predictor === 3;
  const native = isSortedByRank ? addUpFloatRows(bytes, rowBytes, channels, size) : bytes;
  if (!storage.littleEndian && !isSortedByRank) turn(native, size);
  const samples =
    size === 1
      ? native
      : new (size === 2 ? Uint16Array : Uint32Array)(native.buffer, native.byteOffset, native.length / size);
  if (predictor === 2) addUpRows(samples, rowBytes / size, channels);
  if (samples instanceof Uint32Array)
    return codesOfFloats(new Float32Array(samples.buffer, samples.byteOffset, samples.length), losses);
  return isFloat ? codesOfFloats(Float32Array.from(samples, floatOfHalf), losses) : samples;
}

/** Turns big-endian numbers of two or four bytes, in place, into little-endian ones, as browsers hold them. */
function turn(bytes: Uint8Array, size: number): void {
  for (let i = 0; i + size <= bytes.length; i += size)
    for (let low = i, high = i + size - 1; low < high; low++, high--) {
      const swapped = bytes[low]!;
      bytes[low] = bytes[high]!;
      bytes[high] = swapped;
    }
}

/** Samples of fewer than 16 bits, packed with the highest bit first in either byte order; rows begin on whole bytes. */
function unpacked(bytes: Uint8Array, rowBytes: number, depth: number): Uint16Array {
  const rowSamples = Math.floor((rowBytes * 8) / depth);
  const rows = bytes.length / rowBytes;
  const codes = new Uint16Array(rowSamples * rows);
  const mask = (1 << depth) - 1;
  for (let row = 0, to = 0; row < rows; row++) {
    let from = row * rowBytes;
    let bits = 0;
    let bitCount = 0;
    for (let i = 0; i < rowSamples; i++) {
      for (; bitCount < depth; bitCount += 8) bits = ((bits << 8) | bytes[from++]!) & 0xffffff;
      bitCount -= depth;
      codes[to++] = (bits >>> bitCount) & mask;
    }
  }
  return codes;
}

function codesOfFloats(values: Float32Array, losses: FloatLosses): Uint16Array {
  const codes = new Uint16Array(values.length);
  for (let i = 0; i < values.length; i++) {
    const value = values[i]!;
    if (value > 1) {
      codes[i] = 65535;
      losses.above++;
    } else if (value >= 0) codes[i] = value * 65535 + 0.5;
    else losses.below++; // what is no number at all too
  }
  return codes;
}

/** IEEE 754 binary16: a sign, five bits of exponent, ten of fraction. */
function floatOfHalf(half: number): number {
  const sign = half & 0x8000 ? -1 : 1;
  const exponent = (half >> 10) & 31;
  const fraction = (half & 1023) / 1024;
  if (exponent === 31) return fraction === 0 ? sign * Number.POSITIVE_INFINITY : Number.NaN;
  return sign * (exponent === 0 ? fraction * 2 ** -14 : (1 + fraction) * 2 ** (exponent - 15));
}
