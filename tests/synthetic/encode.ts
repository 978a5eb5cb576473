import { crc32, deflateSync } from 'node:zlib';
import sharp from 'sharp';
import { type ExifFacts, exifBlock, joined, uint32 } from './exif-block.ts';
import type { RenderedFrame } from './render-frame.ts';

export interface PngOptions {
  /** ICC profile's bytes, for an iCCP chunk. */
  readonly icc?: Uint8Array;
  readonly exif?: ExifFacts;
  /** Decoding exponent, 2.2 for gAMA 45455; written only where given. */
  readonly gamma?: number;
  /** Writes an sRGB chunk. */
  readonly srgb?: boolean;
  /** zlib level 0 to 9; 1 where left out, as tests want speed. */
  readonly level?: number;
}

export interface JpegOptions {
  readonly quality: number;
  readonly chroma: '4:4:4' | '4:2:0';
  readonly exif?: ExifFacts;
  readonly exifOrientation?: number;
  readonly icc?: Uint8Array;
}

/** Writes the codes as they are into a PNG of the frame's depth. Source: PNG (W3C, third edition), sections 5, 9, 11. */
export function toPng(frame: RenderedFrame, options: PngOptions = {}): Uint8Array {
  const { widthPx, heightPx, bits } = frame;
  const header = joined([uint32(widthPx), uint32(heightPx), Uint8Array.of(bits, 2, 0, 0, 0)]);
  const chunks = [Uint8Array.of(137, 80, 78, 71, 13, 10, 26, 10), chunk('IHDR', header)];
  if (options.gamma) chunks.push(chunk('gAMA', uint32(Math.round(100_000 / options.gamma))));
  if (options.srgb) chunks.push(chunk('sRGB', Uint8Array.of(0)));
  if (options.icc) {
    const named = joined([new TextEncoder().encode('profile\0'), Uint8Array.of(0), deflateSync(options.icc)]);
    chunks.push(chunk('iCCP', named));
  }
  if (options.exif) chunks.push(chunk('eXIf', exifBlock(options.exif)));
  chunks.push(chunk('IDAT', deflateSync(filteredRows(frame), { level: options.level ?? 1 })));
  chunks.push(chunk('IEND', new Uint8Array(0)));
  return joined(chunks);
}

/**
 * Codes an 8-bit frame as a JPEG: codes go to the encoder as they are, Exif and ICC are put beside them unread.
 *
 * @throws RangeError for a 16-bit frame.
 */
export async function toJpeg(frame: RenderedFrame, options: JpegOptions): Promise<Uint8Array> {
  if (frame.bits !== 8) throw new RangeError(`a JPEG holds 8 bits a sample, not ${frame.bits}`);
  const raw = { width: frame.widthPx, height: frame.heightPx, channels: 3 as const };
  const coded = await sharp(frame.samples as Uint8Array, { raw })
    .jpeg({ quality: options.quality, chromaSubsampling: options.chroma, optimiseCoding: true })
    .toBuffer();
  const exif = { ...options.exif };
  if (options.exifOrientation !== undefined) Object.assign(exif, { orientation: options.exifOrientation });
  const segments: Uint8Array[] = [];
  if (Object.keys(exif).length) {
    segments.push(segment(0xe1, joined([new TextEncoder().encode('Exif\0\0'), exifBlock(exif)])));
  }
  if (options.icc) {
    const head = joined([new TextEncoder().encode('ICC_PROFILE\0'), Uint8Array.of(1, 1)]);
    segments.push(segment(0xe2, joined([head, options.icc])));
  }
  // after the start marker and the JFIF segment, which must come first
  const jfifEnd = coded[2] === 0xff && coded[3] === 0xe0 ? 4 + ((coded[4]! << 8) | coded[5]!) : 2;
  return joined([coded.subarray(0, jfifEnd), ...segments, coded.subarray(jfifEnd)]);
}

function chunk(type: string, data: Uint8Array): Uint8Array {
  const named = joined([new TextEncoder().encode(type), data]);
  return joined([uint32(data.length), named, uint32(crc32(named))]);
}

function segment(marker: number, data: Uint8Array): Uint8Array {
  const length = data.length + 2;
  if (length > 65_535) throw new RangeError(`a JPEG segment holds 65 533 bytes, not ${data.length}`);
  return joined([Uint8Array.of(0xff, marker, length >> 8, length & 255), data]);
}

/** Every row with filter type 1 (Sub), which suits smooth light and is quick. */
function filteredRows({ widthPx, heightPx, bits, samples }: RenderedFrame): Uint8Array {
  const bytesPerPixel = (3 * bits) / 8;
  const stride = widthPx * bytesPerPixel;
  const filtered = new Uint8Array((stride + 1) * heightPx);
  const line = new Uint8Array(stride);
  for (let row = 0; row < heightPx; row++) {
    const start = row * widthPx * 3;
    for (let i = 0; i < widthPx * 3; i++) {
      const code = samples[start + i]!;
      if (bits === 8) line[i] = code;
      else {
        line[2 * i] = code >> 8;
        line[2 * i + 1] = code & 255;
      }
    }
    const to = row * (stride + 1);
    filtered[to] = 1;
    for (let i = 0; i < stride; i++)
      filtered[to + 1 + i] = line[i]! - (i >= bytesPerPixel ? line[i - bytesPerPixel]! : 0);
  }
  return filtered;
}
