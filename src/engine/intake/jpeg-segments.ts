import { EngineError } from '../engine-error.ts';
import { joinIccSegments } from './join-icc-segments.ts';
import { dcSteps, type JpegDcSteps, readDcQuantisers } from './jpeg-dc-steps.ts';

/** What a JPEG says beside its pixels. */
export interface JpegSegments {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly components: number;
  readonly bitsPerSample: number;
  /** The start-of-frame marker's low byte: 0xC0 baseline, 0xC1 extended, 0xC2 progressive; others are rare. */
  readonly frameMarker: number;
  /** TIFF block of the first Exif segment. */
  readonly exif: Uint8Array | null;
  /** The first XMP packet; what did not fit into its segment is not read. */
  readonly xmp: Uint8Array | null;
  /** Whether a segment holds IPTC notes. */
  readonly hasIptc: boolean;
  /** Empty where its pieces don't make a whole. */
  readonly iccProfile: Uint8Array | null;
  /** APP14's colour transform: 0 RGB or CMYK, 1 YCbCr, 2 YCCK; `null` where the segment is absent. */
  readonly colourTransform: number | null;
  readonly dcSteps: JpegDcSteps;
}

/**
 * Walks a JPEG's segments and scans to its end mark. Decoders paint grey over what a cut file lacks; a falloff read
 * from that would be fiction, so a file without its end mark is refused here.
 * Source: ITU-T T.81 (1992), annex B.1 and B.2; APP2 chunks: ICC.1:2010, annex B.4.
 *
 * @throws {@link EngineError} `unreadable-file`.
 */
export function readJpegSegments(bytes: Uint8Array): JpegSegments {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const iccSegments: Uint8Array[] = [];
  const quantisers: number[] = [];
  let frame: Pick<
    JpegSegments,
    'widthPx' | 'heightPx' | 'components' | 'bitsPerSample' | 'frameMarker'
  > | null = null;
  let tables: number[] = [];
  let lumaSampling = 1;
  let exif: Uint8Array | null = null;
  let xmp: Uint8Array | null = null;
  let hasIptc = false;
  let colourTransform: number | null = null;
  let scans = 0;
  let at = 2;
  for (;;) {
    at = nextMarker(bytes, at, scans > 0);
    if (at >= bytes.length) throw cutShort(bytes.length);
    const marker = bytes[at]!;
    at++;
    if (marker === 0xd9) break;
    if (marker === 0x01 || (marker >= 0xd0 && marker <= 0xd8)) continue; // these stand alone, without a length
    if (at + 2 > bytes.length) throw cutShort(bytes.length);
    const length = view.getUint16(at);
    if (length < 2) throw damaged(`a segment at byte ${at} claims ${length} bytes, 2 at least were needed`);
    if (at + length > bytes.length) throw cutShort(bytes.length);
    const data = bytes.subarray(at + 2, at + length);
    at += length;
    if (isFrameMarker(marker)) {
      if (frame) throw damaged('it holds two frame headers, one was needed');
      frame = frameOf(data, marker);
      tables = Array.from({ length: frame.components }, (_, i) => data[6 + 3 * i + 2]!);
      lumaSampling = frame.components > 1 ? Math.max(1, data[7]! >> 4, data[7]! & 15) : 1;
    } else if (marker === 0xda) {
      if (!frame) throw damaged('its first scan comes before any frame header');
      scans++;
    } else if (marker === 0xdb) readDcQuantisers(data, quantisers);
    else if (marker === 0xe1 && !exif && startsWith(data, 'Exif\0\0')) exif = data.subarray(6);
    else if (marker === 0xe1 && !xmp && startsWith(data, XMP_LEAD)) xmp = data.subarray(XMP_LEAD.length);
    else if (marker === 0xed) hasIptc ||= holdsIptc(data);
    else if (marker === 0xe2 && startsWith(data, 'ICC_PROFILE\0')) iccSegments.push(data.subarray(12));
    else if (marker === 0xee && startsWith(data, 'Adobe') && data.length >= 12) colourTransform = data[11]!;
  }
  if (!frame || scans === 0) throw damaged('it ends without holding a picture');
  return {
    ...frame,
    exif,
    xmp,
    hasIptc,
    iccProfile: joinIccSegments(iccSegments),
    colourTransform,
    dcSteps: dcSteps(quantisers, tables, lumaSampling),
  };
}

/** What an XMP packet's segment begins with. Source: ISO 16684-1 and its part on embedding, as remembered. */
export const XMP_LEAD = 'http://ns.adobe.com/xap/1.0/\0';

/** Blocks of "8BIM", a number and a length; number 0x0404 is IPTC. Source: IPTC-IIM 4.2 and its embedding, as remembered. */
function holdsIptc(data: Uint8Array): boolean {
  for (let at = data.indexOf(0x38); at >= 0; at = data.indexOf(0x38, at + 1))
    if (startsWith(data.subarray(at, at + 6), '8BIM\u0004\u0004')) return true;
  return false;
}

/** Position of the next marker's low byte; the length of `bytes` where there is none. Fill bytes are passed over. */
function nextMarker(bytes: Uint8Array, from: number, afterScan: boolean): number {
  if (!afterScan && from < bytes.length && bytes[from] !== 0xff)
    throw damaged(`byte ${from} should begin a segment and does not`);
  let at = from;
  for (;;) {
    at = bytes.indexOf(0xff, at);
    if (at < 0) return bytes.length;
    while (bytes[at] === 0xff) at++;
    if (at >= bytes.length || bytes[at] !== 0) return at; // FF 00 is a coded byte of the scan, not a marker
  }
}

/** SOF0 to SOF15 without DHT, JPG and DAC, which lie between them. */
function isFrameMarker(marker: number): boolean {
  return marker >= 0xc0 && marker <= 0xcf && marker !== 0xc4 && marker !== 0xc8 && marker !== 0xcc;
}

function frameOf(data: Uint8Array, frameMarker: number) {
  if (data.length < 6 || data.length < 6 + 3 * data[5]!)
    throw damaged(`its frame header has ${data.length} bytes, too few for what it lists`);
  return {
    bitsPerSample: data[0]!,
    heightPx: (data[1]! << 8) | data[2]!,
    widthPx: (data[3]! << 8) | data[4]!,
    components: data[5]!,
    frameMarker,
  };
}

function startsWith(data: Uint8Array, lead: string): boolean {
  return data.length >= lead.length && [...lead].every((letter, i) => data[i] === letter.charCodeAt(0));
}

function cutShort(length: number): EngineError {
  return new EngineError(
    'unreadable-file',
    `The JPEG ends after ${length} bytes, before its end mark: it was cut short. Copy it from the card again.`,
  );
}

function damaged(found: string): EngineError {
  return new EngineError('unreadable-file', `The JPEG is damaged: ${found}. Copy it from the card again.`);
}
