import type { CodePoints } from './code-points.ts';

const SEQUENCE_HEADER = 1;

/**
 * What an AV1 stream's own header states of its colours, for files that say it nowhere else; `null` where it states
 * nothing.
 * Source: AV1 Bitstream and Decoding Process Specification, 5.3 and 5.5 (obu_header, sequence_header_obu, color_config),
 * as remembered.
 *
 * @throws RangeError where the header ends too soon.
 */
export function av1Colour(stream: Uint8Array): CodePoints | null {
  const header = sequenceHeader(stream);
  return header && colourOf(new BitReader(header));
}

/** Units of the stream, one after another, each with its size; the header is among the first. */
function sequenceHeader(stream: Uint8Array): Uint8Array | null {
  for (let at = 0, units = 0; at < stream.length && units < 8; units++) {
    const lead = stream[at]!;
    const hasExtension = (lead & 4) !== 0;
    if ((lead & 2) === 0) return null; // without a size: the last unit
    at += hasExtension ? 2 : 1;
    let size = 0;
    for (let shift = 0; shift < 28; shift += 7) {
      const byte = stream[at++] ?? 0;
      size |= (byte & 0x7f) << shift;
      if ((byte & 0x80) === 0) break;
    }
    if (((lead >> 3) & 15) === SEQUENCE_HEADER) return stream.subarray(at, at + size);
    at += size;
  }
  return null;
}

function colourOf(bits: BitReader): CodePoints | null {
  const profile = bits.read(3);
  bits.read(1); // a still picture
  const isReduced = bits.read(1) === 1;
  if (isReduced) bits.read(5);
  else skipOperatingPoints(bits);
  const [widthBits, heightBits] = [bits.read(4) + 1, bits.read(4) + 1];
  bits.read(widthBits);
  bits.read(heightBits);
  if (!isReduced && bits.read(1) === 1) bits.read(7); // numbers of frames
  bits.read(3); // blocks and filters
  if (!isReduced) skipTools(bits);
  bits.read(3); // scaling, and two filters
  const isDeep = bits.read(1) === 1;
  if (profile === 2 && isDeep) bits.read(1);
  if (profile !== 1) bits.read(1); // grey alone
  if (bits.read(1) === 0) return null;
  return { primaries: bits.read(8), transfer: bits.read(8) };
}

function skipOperatingPoints(bits: BitReader): void {
  let delayBits = 0;
  if (bits.read(1) === 1) {
    bits.read(32);
    bits.read(32);
    if (bits.read(1) === 1) bits.skipUnary();
    if (bits.read(1) === 1) {
      delayBits = bits.read(5) + 1;
      bits.read(32);
      bits.read(10);
    }
  }
  const hasDelay = bits.read(1) === 1;
  const points = bits.read(5) + 1;
  for (let point = 0; point < points; point++) {
    bits.read(12);
    if (bits.read(5) > 7) bits.read(1);
    if (delayBits > 0 && bits.read(1) === 1) {
      bits.read(delayBits);
      bits.read(delayBits);
      bits.read(1);
    }
    if (hasDelay && bits.read(1) === 1) bits.read(4);
  }
}

function skipTools(bits: BitReader): void {
  bits.read(4);
  const hasOrder = bits.read(1) === 1;
  if (hasOrder) bits.read(2);
  const choosesTools = bits.read(1) === 1;
  const tools = choosesTools ? 2 : bits.read(1);
  if (tools > 0 && bits.read(1) === 0) bits.read(1);
  if (hasOrder) bits.read(3);
}

/** Bits from the highest of each byte on. */
class BitReader {
  private readonly bytes: Uint8Array;
  private at = 0;

  constructor(bytes: Uint8Array) {
    this.bytes = bytes;
  }

  read(count: number): number {
    let value = 0;
    for (let i = 0; i < count; i++, this.at++) {
      const byte = this.bytes[this.at >> 3];
      if (byte === undefined) throw new RangeError('its AV1 header ends too soon');
      value = value * 2 + ((byte >> (7 - (this.at & 7))) & 1);
    }
    return value;
  }

  /** A number of unknown length: as many zeros as bits follow the first one. */
  skipUnary(): void {
    let zeros = 0;
    while (this.read(1) === 0) zeros++;
    this.read(Math.min(zeros, 32));
  }
}
