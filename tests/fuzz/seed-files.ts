import sharp, { type TiffOptions } from 'sharp';
import { exifOfCamera } from '../engine/export/exif-of-camera.ts';
import { p3Profile } from '../engine/export/known-profiles.ts';
import { avifWithProperty, box, nclx } from '../engine/intake/avif-with-property.ts';
import { chunk, pngFile } from '../engine/intake/png-bytes.ts';
import { tiffFile, tiffOfPages } from '../engine/intake/tiff-bytes.ts';
import { dngBytes } from '../synthetic/dng-bytes.ts';
import { toJpeg, toPng } from '../synthetic/encode.ts';
import { randomField } from '../synthetic/known-field.ts';
import { type RenderedFrame, renderFrame } from '../synthetic/render-frame.ts';

/** Small enough to be read in a twentieth of a second, and yet of a few cells either way. */
const [WIDTH, HEIGHT] = [48, 32];

export function smallFrame(bits: 8 | 16, seed: number, widthPx = WIDTH, heightPx = HEIGHT): RenderedFrame {
  const { field } = randomField(seed, { spreadEv: 0.6 });
  return renderFrame(field, { widthPx, heightPx, bits, curve: 'srgb', electronsAtFull: 30_000, seed });
}

/** As a camera writes it, so that every reader of it has something to do. */
const EXIF = exifOfCamera('MM', {
  main: [
    { tag: 272, type: 'ascii', value: 'Model A' },
    { tag: 274, type: 'short', value: [6] },
    {
      tag: 34665,
      type: 'directory',
      value: [
        { tag: 33434, type: 'rational', value: [1, 125] },
        { tag: 33437, type: 'rational', value: [56, 10] },
        { tag: 34855, type: 'short', value: [100] },
        { tag: 36867, type: 'ascii', value: '2026:03:01 10:20:30' },
        { tag: 37382, type: 'rational', value: [25, 10] },
        { tag: 37386, type: 'rational', value: [850, 10] },
        { tag: 37500, type: 'undefined', value: new Uint8Array(40).fill(7) },
      ],
    },
  ],
});

export function pngs(): Uint8Array[] {
  const eight = smallFrame(8, 1);
  const sixteen = smallFrame(16, 2);
  const chunks = [chunk('eXIf', EXIF), chunk('iTXt', Buffer.from('XML:com.adobe.xmp\0\0\0\0\0<x:xmpmeta/>'))];
  const grey = { widthPx: WIDTH, heightPx: HEIGHT };
  return [
    toPng(eight, { icc: p3Profile }),
    toPng(sixteen, { gamma: 1 }),
    pngFile({ ...grey, depth: 16, colourType: 2, samples: sixteen.samples, chunks, interlaced: true }),
    pngFile({ ...grey, depth: 8, colourType: 0, samples: every3rd(eight.samples), chunks }),
    pngFile({
      ...grey,
      depth: 4,
      colourType: 3,
      chunks: [chunk('PLTE', new Uint8Array(48).fill(180)), ...chunks],
    }),
    pngFile({ ...grey, depth: 8, colourType: 6, chunks }),
    toPng(smallFrame(8, 3, 72, 56)),
  ];
}

const every3rd = (samples: ArrayLike<number>) => Array.from(samples).filter((_, i) => i % 3 === 0);

export async function jpegs(): Promise<Uint8Array[]> {
  const frame = smallFrame(8, 4);
  const exif = {
    model: 'Model A',
    exposureTime: [1, 125],
    iso: 100,
    takenAt: '2026:03:01 10:20:30',
  } as const;
  const raw = { width: WIDTH, height: HEIGHT, channels: 3 } as const;
  const picture = () => sharp(frame.samples as Uint8Array, { raw });
  return [
    await toJpeg(frame, { quality: 90, chroma: '4:2:0', exif, icc: p3Profile }),
    await toJpeg(smallFrame(8, 5, 72, 56), { quality: 95, chroma: '4:4:4', exifOrientation: 6 }),
    new Uint8Array(await picture().jpeg({ progressive: true, chromaSubsampling: '4:4:4' }).toBuffer()),
    new Uint8Array(await picture().greyscale().jpeg({ quality: 80 }).toBuffer()),
  ];
}

export async function tiffs(): Promise<Uint8Array[]> {
  const { samples } = smallFrame(16, 6);
  const plain = { widthPx: WIDTH, heightPx: HEIGHT, channels: 3, depth: 16, samples } as const;
  const written = async (options: TiffOptions) =>
    new Uint8Array(
      await sharp(samples as Uint16Array, { raw: { width: WIDTH, height: HEIGHT, channels: 3 } })
        .toColourspace('rgb16')
        .withIccProfile('p3')
        .tiff(options)
        .toBuffer(),
    );
  const float = Float64Array.from(samples, (code) => Math.fround(code / 65536));
  return [
    tiffFile(plain),
    tiffFile({ ...plain, order: 'MM', tile: [32, 16] }),
    tiffFile({ ...plain, compression: 'deflate', predictor: 2, planar: true, rowsPerStrip: 4 }),
    tiffFile({ ...plain, isFloat: true, depth: 32, predictor: 3, compression: 'deflate', samples: float }),
    tiffFile({ ...plain, isFloat: true, depth: 32, samples: float }),
    tiffOfPages([plain, plain].map((page) => ({ ...page, compression: 'packbits' as const }))),
    await written({ compression: 'lzw', predictor: 'horizontal' }),
    await written({ compression: 'packbits', predictor: 'none', tile: true, tileWidth: 16, tileHeight: 16 }),
  ];
}

export function raws(): Uint8Array[] {
  const cells = (widthPx: number, heightPx: number, per: number) =>
    Uint16Array.from({ length: widthPx * heightPx * per }, (_, i) => 700 + (i % 61) + 10 * (i % widthPx));
  const said = {
    asShotNeutral: [0.5, 1, 0.7],
    colorMatrix: [0.9, -0.2, -0.1, -0.4, 1.2, 0.2, -0.1, 0.2, 0.6],
    ...{ exposureTime: 1 / 125, fNumber: 5.6, iso: 100, takenAt: '2026:03:01 10:20:30' },
  } as const;
  return [
    dngBytes({
      ...said,
      cells: cells(64, 48, 1),
      widthPx: 64,
      heightPx: 48,
      order: 'RGGB',
      bits: 16,
      white: 4095,
    }),
    dngBytes({
      ...said,
      ...{
        cells: cells(72, 52, 1),
        widthPx: 72,
        heightPx: 52,
        order: 'GBRG',
        bits: 12,
        white: 4000,
        orientation: 8,
      },
      activeArea: { top: 4, left: 8, bottom: 52, right: 72 },
      black: { rows: 2, columns: 2, levels: [60, 62, 64, 66] },
    }),
    dngBytes({
      ...said,
      cells: cells(48, 32, 3),
      widthPx: 48,
      heightPx: 32,
      order: null,
      bits: 16,
      white: 4095,
    }),
  ];
}

export async function webps(): Promise<Uint8Array[]> {
  const picture = () => pictureOf(smallFrame(8, 7));
  return [
    new Uint8Array(await picture().withIccProfile('p3').webp({ quality: 80 }).toBuffer()),
    new Uint8Array(await picture().webp({ lossless: true, effort: 0 }).toBuffer()),
    new Uint8Array(
      await picture()
        .ensureAlpha(0.5)
        .withExif({ IFD0: { Model: 'Model A' } })
        .webp()
        .toBuffer(),
    ),
  ];
}

const pictureOf = ({ samples, widthPx, heightPx }: RenderedFrame) =>
  sharp(samples as Uint8Array, { raw: { width: widthPx, height: heightPx, channels: 3 } });

/** AVIF, and the same under the name of HEIC, which is decoded by some browsers alone. */
export async function avifs(): Promise<Uint8Array[]> {
  const picture = () => pictureOf(smallFrame(8, 8));
  const plain = new Uint8Array(await picture().avif({ quality: 75, effort: 0 }).toBuffer());
  const heic = plain.slice();
  heic.set(Buffer.from('heic', 'latin1'), 8);
  return [
    plain,
    avifWithProperty(plain, box('colr', nclx(12, 13))),
    new Uint8Array(
      await picture()
        .withExif({ IFD0: { Model: 'Model A' } })
        .avif({ effort: 0 })
        .toBuffer(),
    ),
    heic,
  ];
}

/** PNGs that differ by their profile alone, which is bent before it is packed: its checksums are right. */
export const underProfile = (icc: Uint8Array): Uint8Array => toPng(smallFrame(8, 9), { icc });
