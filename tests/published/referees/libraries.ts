import { deflateSync } from 'node:zlib';
import Color from 'colorjs.io';
import { uv } from 'colorjs.io/fn';
import exifr from 'exifr';
import { decode as decodeByFastPng } from 'fast-png';
import sharp from 'sharp';
import { bradfordMatrix } from '../../../src/engine/colour/bradford.ts';
import { xyToXyz, xyzToUvPrime } from '../../../src/engine/colour/chromaticity.ts';
import { ciede2000 } from '../../../src/engine/colour/ciede2000.ts';
import { xyzToLab } from '../../../src/engine/colour/lab.ts';
import { rgbToXyzMatrix } from '../../../src/engine/colour/rgb-to-xyz-matrix.ts';
import { srgbDecode, srgbEncode } from '../../../src/engine/colour/srgb-curve.ts';
import { SRGB } from '../../../src/engine/colour/srgb-space.ts';
import { D50, D65 } from '../../../src/engine/colour/white-points.ts';
import { writePng } from '../../../src/engine/export/write-png.ts';
import { writeTiff } from '../../../src/engine/export/write-tiff.ts';
import { linearise } from '../../../src/engine/frame/linearise.ts';
import { decodeImage } from '../../../src/engine/intake/decode-image.ts';
import { readExif } from '../../../src/engine/intake/read-exif.ts';
import { transformVector3, type Vector3 } from '../../../src/engine/numeric/matrix3.ts';
import { seededRandom } from '../../../src/engine/numeric/seeded-random.ts';
import { tumblerExif } from '../../engine/export/exif-of-camera.ts';
import { p3Profile, srgbProfile } from '../../engine/export/known-profiles.ts';
import { decoded, picture, wholeFile } from '../../engine/export/read-back.ts';
import { chunk, join, noiseSamples, pngFile } from '../../engine/intake/png-bytes.ts';
import { nodePlatform } from '../../node-platform.ts';
import { dngBytes } from '../../synthetic/dng-bytes.ts';
import type { RefereedLibrary } from './refereed.ts';

/** Every library that does by itself what the tool does, over many inputs. */
export async function refereedLibraries(): Promise<RefereedLibrary[]> {
  return [
    ...colours(),
    ...(await Promise.all([ownPng(), pngByFastPng(), tiffBySharp('lzw'), tiffBySharp('deflate'), ownTiff()])),
    await exif(),
    await profiles(),
    await rawCells(),
  ];
}

const COLOURS = 3000;

function colours(): RefereedLibrary[] {
  const random = seededRandom(2014);
  const any = (): Vector3 => [random.uniform(), random.uniform(), random.uniform()];
  const byLibrary = (from: string, coords: Vector3, to: string) =>
    new Color(from, [...coords]).to(to).coords as [number, number, number];
  const apart = (a: readonly number[], b: readonly number[]) =>
    Math.max(...a.map((value, i) => Math.abs(value - b[i]!)));
  const largest = (
    what: string,
    unit: string,
    allowed: number,
    difference: () => number,
  ): RefereedLibrary => {
    let most = 0;
    for (let i = 0; i < COLOURS; i++) most = Math.max(most, difference());
    return { library: 'colorjs.io', what, inputs: `${COLOURS} colours`, largest: most, allowed, unit };
  };
  const toXyz = rgbToXyzMatrix(SRGB.primaries, SRGB.white);
  const adapt = bradfordMatrix(D65, D50);
  const white = xyToXyz(D65);
  const lab = () => ({
    lightness: 100 * random.uniform(),
    a: 160 * random.uniform() - 80,
    b: 160 * random.uniform() - 80,
  });
  const asColour = ({ lightness, a, b }: ReturnType<typeof lab>) => new Color('lab', [lightness, a, b]);
  return [
    largest('sRGB to light', 'share of white', 1e-12, () => {
      const code = any();
      return apart(code.map(srgbDecode), byLibrary('srgb', code, 'srgb-linear'));
    }),
    largest('light to sRGB', 'share of full scale', 1e-12, () => {
      const light = any();
      return apart(light.map(srgbEncode), byLibrary('srgb-linear', light, 'srgb'));
    }),
    largest('sRGB’s light to XYZ', 'share of white', 1e-12, () => {
      const light = any();
      return apart(transformVector3(toXyz, light), byLibrary('srgb-linear', light, 'xyz-d65'));
    }),
    largest('Bradford adaptation', 'share of white', 1e-12, () => {
      const xyz = any();
      return apart(transformVector3(adapt, xyz), byLibrary('xyz-d65', xyz, 'xyz-d50'));
    }),
    largest('L*a*b*', 'L*, a*, b*', 1e-9, () => {
      const xyz = any();
      const { lightness, a, b } = xyzToLab(xyz, white);
      return apart([lightness, a, b], byLibrary('xyz-d65', xyz, 'lab-d65'));
    }),
    largest('u′v′', 'u′v′', 1e-12, () => {
      const xyz = any();
      const { uPrime, vPrime } = xyzToUvPrime(...xyz);
      return apart([uPrime, vPrime], uv(new Color('xyz-d65', [...xyz])));
    }),
    largest('CIEDE2000', 'ΔE00', 1e-9, () => {
      const [one, other] = [lab(), lab()];
      return Math.abs(ciede2000(one, other) - asColour(one).deltaE(asColour(other), '2000'));
    }),
  ];
}

/** The largest difference of codes; without end where there are not as many. */
function codesApart(a: ArrayLike<number>, b: ArrayLike<number>): number {
  if (a.length !== b.length) return Number.POSITIVE_INFINITY;
  let most = 0;
  for (let i = 0; i < a.length; i++) most = Math.max(most, Math.abs(a[i]! - b[i]!));
  return most;
}

const codes = (
  library: string,
  what: string,
  inputs: ArrayLike<number>,
  largest: number,
): RefereedLibrary => ({
  ...{ library, what, inputs: `${inputs.length} samples`, largest, allowed: 0, unit: 'codes' },
});

async function pngByFastPng(): Promise<RefereedLibrary> {
  const samples = noiseSamples(301 * 199 * 3, 16);
  const file = pngFile({ widthPx: 301, heightPx: 199, depth: 16, colourType: 2, samples });
  const { samples: own } = await decodeImage(file, nodePlatform);
  return codes('fast-png', 'PNG of 16 bits, read by both', own, codesApart(own, decodeByFastPng(file).data));
}

async function ownPng(): Promise<RefereedLibrary> {
  const given = picture({ widthPx: 301, heightPx: 199 });
  const file = wholeFile(await writePng(given, nodePlatform));
  const found = decodeByFastPng(file).data;
  return codes('fast-png', 'PNG of 16 bits, written by the tool', found, codesApart(given.samples, found));
}

async function tiffBySharp(compression: 'lzw' | 'deflate'): Promise<RefereedLibrary> {
  const { samples, widthPx, heightPx } = picture({ widthPx: 301, heightPx: 199 });
  const file = await sharp(samples, { raw: { width: widthPx, height: heightPx, channels: 3 } })
    .toColourspace('rgb16')
    .tiff({ compression, predictor: 'horizontal' })
    .toBuffer();
  const { samples: own } = await decodeImage(new Uint8Array(file), nodePlatform);
  const { samples: found } = await decoded(new Uint8Array(file));
  const what = `TIFF of 16 bits (${compression}, predictor), written and read by it`;
  return codes(
    'sharp (libvips, libtiff)',
    what,
    own,
    Math.max(codesApart(own, found), codesApart(own, samples)),
  );
}

async function ownTiff(): Promise<RefereedLibrary> {
  const given = picture({ widthPx: 301, heightPx: 199 });
  const { samples: found } = await decoded(wholeFile(await writeTiff(given)));
  return codes(
    'sharp (libvips, libtiff)',
    'TIFF of 16 bits, written by the tool',
    found,
    codesApart(given.samples, found),
  );
}

async function exif(): Promise<RefereedLibrary> {
  let largest = 0;
  for (const order of ['II', 'MM'] as const) {
    const block = tumblerExif(order, {});
    const { exposure, orientation } = readExif(new Uint8Array(block));
    const found = await exifr.parse(block, { translateValues: false, mergeOutput: true });
    const own = [exposure?.seconds, exposure?.fNumber, exposure?.iso, exposure?.focalLengthMm, orientation];
    const theirs = [found.ExposureTime, found.FNumber, found.ISO, found.FocalLength, found.Orientation ?? 1];
    own.forEach((value, i) => {
      largest = Math.max(largest, Math.abs(Number(value) - Number(theirs[i])));
    });
  }
  const what = 'shutter, aperture, ISO, focal length and orientation of Exif';
  return { library: 'exifr', what, inputs: 'both byte orders', largest, allowed: 1e-12, unit: 'as named' };
}

/** Matrix profiles, which the engine reads by itself: each colour against the same profile in Little CMS. */
async function profiles(): Promise<RefereedLibrary> {
  const pixels = 4096;
  let largest = 0;
  for (const profile of [p3Profile, srgbProfile]) {
    const samples = Uint16Array.from(noiseSamples(pixels * 3, 16));
    const chunks = [chunk('iCCP', join(Buffer.from('any\0\0', 'latin1'), deflateSync(profile)))];
    const file = pngFile({ widthPx: 64, heightPx: 64, depth: 16, colourType: 2, samples, chunks });
    const { frame } = linearise(await decodeImage(file, nodePlatform));
    const { red, green, blue } = frame.lightAtCode;
    const toD65 = bradfordMatrix([0.9642 / 2.7891, 1 / 2.7891], D65);
    const tables = (await nodePlatform.openProfileTables!(profile))!;
    const found = tables.toXyz(samples);
    for (let at = 0; at < samples.length; at += 3) {
      const own = transformVector3(frame.toXyz, [
        red[frame.samples[at]!]!,
        green[frame.samples[at + 1]!]!,
        blue[frame.samples[at + 2]!]!,
      ]);
      const theirs = transformVector3(toD65, [found[at]!, found[at + 1]!, found[at + 2]!]);
      largest = Math.max(largest, ...own.map((value, i) => Math.abs(value - theirs[i]!)));
    }
    tables.close();
  }
  return {
    library: 'Little CMS',
    what: 'light of matrix profiles (sRGB, Display P3) as XYZ',
    inputs: `${2 * pixels} colours`,
    largest,
    allowed: 5e-4,
    unit: 'share of white',
  };
}

async function rawCells(): Promise<RefereedLibrary> {
  const [widthPx, heightPx] = [600, 400];
  const cells = Uint16Array.from(noiseSamples(widthPx * heightPx, 14));
  let largest = 0;
  for (const bits of [14, 16] as const) {
    const file = dngBytes({ cells, widthPx, heightPx, order: 'RGGB', bits, white: 16_383 });
    const raw = await nodePlatform.openRaw!(file);
    largest = Math.max(largest, codesApart((await raw.mosaic())!.data, cells));
    raw.dispose();
  }
  return codes(
    'LibRaw',
    'cells of a written DNG, packed in 14 bits and in 16, against its own bytes',
    cells,
    largest,
  );
}
