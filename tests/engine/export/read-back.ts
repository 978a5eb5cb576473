import exifr from 'exifr';
import sharp from 'sharp';
import type { CorrectedPicture } from '../../../src/engine/correct/corrected-picture.ts';
import { seededRandom } from '../../../src/engine/numeric/seeded-random.ts';

/** The pieces of a file as one. */
export function wholeFile(parts: readonly Uint8Array[]): Uint8Array {
  return new Uint8Array(Buffer.concat(parts));
}

/** What an independent decoder finds in a file: codes as stored, not turned, no profile applied. */
export async function decoded(file: Uint8Array) {
  const image = () => sharp(file, { ignoreIcc: true, limitInputPixels: false });
  const metadata = await image().metadata();
  const depth = metadata.depth === 'ushort' ? 'ushort' : 'uchar';
  // without a space of its own depth and kind, 16 bits come out as 8; 8-bit grey with alpha loses that in its own
  const isGrey = metadata.channels! < 3;
  const space = { uchar: metadata.channels === 1 ? 'b-w' : 'srgb', ushort: isGrey ? 'grey16' : 'rgb16' }[
    depth
  ];
  const { data, info } = await image()
    .toColourspace(space)
    .raw({ depth })
    .toBuffer({ resolveWithObject: true });
  const all =
    depth === 'ushort'
      ? new Uint16Array(data.buffer, data.byteOffset, data.length / 2)
      : new Uint8Array(data);
  const samples = isGrey && info.channels === 4 ? all.filter((_, i) => i % 4 === 0 || i % 4 === 3) : all;
  return { metadata, samples, channels: metadata.channels, bits: depth === 'ushort' ? 16 : 8 };
}

/** Whether two pictures hold the same codes at the same depth. */
export function sameCodes(a: CorrectedPicture['samples'], b: CorrectedPicture['samples']): boolean {
  const bytes = ({ buffer, byteOffset, byteLength }: typeof a) => Buffer.from(buffer, byteOffset, byteLength);
  return Buffer.compare(bytes(a), bytes(b)) === 0;
}

/** All that a second independent reader finds in Exif, its thumbnail and the maker's note aside. */
export async function exifFacts(file: Uint8Array): Promise<Record<string, unknown>> {
  const options = {
    tiff: true,
    exif: true,
    gps: true,
    interop: true,
    ifd1: false,
    makerNote: false,
    icc: false,
  };
  return ((await exifr.parse(file, { ...options, translateValues: false, mergeOutput: true })) ??
    {}) as Record<string, unknown>;
}

/** A smooth picture with grain, of any kind. */
export function picture(of: Partial<CorrectedPicture> = {}): CorrectedPicture {
  const { widthPx = 150, heightPx = 90, channels = 3, bitsPerSample = 16 } = of;
  const samples = of.samples ?? grain(widthPx, heightPx, channels, bitsPerSample);
  return {
    orientation: 1,
    iccProfile: null,
    exif: null,
    ...of,
    widthPx,
    heightPx,
    channels,
    bitsPerSample,
    samples,
  };
}

function grain(widthPx: number, heightPx: number, channels: number, bitsPerSample: number) {
  const { uniform } = seededRandom(channels * bitsPerSample);
  const most = 2 ** bitsPerSample - 1;
  const samples = new (bitsPerSample === 16 ? Uint16Array : Uint8Array)(widthPx * heightPx * channels);
  for (let i = 0; i < samples.length; i++) {
    const x = Math.floor(i / channels) % widthPx;
    const y = Math.floor(i / channels / widthPx);
    const light = 0.3 + (0.4 * x) / widthPx + (0.2 * y) / heightPx + 0.02 * uniform() + 0.02 * (i % channels);
    samples[i] = Math.round(light * most);
  }
  return samples;
}
