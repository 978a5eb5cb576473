import { existsSync, mkdirSync, renameSync, writeFileSync } from 'node:fs';
import sharp, { type Sharp } from 'sharp';
import { seededRandom } from '../../../src/engine/numeric/seeded-random.ts';
import { largeDng } from '../../synthetic/large-dng.ts';

const FOLDER = '.bench';

/** A file that the bench reads. */
export interface BenchFile {
  /** As a row of the table names it. */
  readonly name: string;
  readonly megapixels: number;
  readonly kind: 'jpeg' | 'tiff' | 'png' | 'dng';
  /** Writes it, the first time that it is asked for, and returns its path. */
  readonly path: () => Promise<string>;
}

/** Frames of a proportion of 3 to 2, as cameras make them. */
export const SIZES: Readonly<Record<number, readonly [widthPx: number, heightPx: number]>> = {
  6: [3000, 2000],
  12: [4240, 2832],
  24: [6000, 4000],
  60: [9504, 6336],
  100: [12_240, 8160],
};

export function jpegFile(megapixels: number, chroma: '4:4:4' | '4:2:0'): BenchFile {
  return file(megapixels, `JPEG ${chroma}`, 'jpeg', `${chroma.replaceAll(':', '')}.jpg`, (size, path) =>
    picture(size, 8).jpeg({ quality: 95, chromaSubsampling: chroma }).toFile(path),
  );
}

export function tiffFile(megapixels: number, packing: 'none' | 'lzw' | 'deflate'): BenchFile {
  const name = `16-bit TIFF${packing === 'none' ? '' : `, ${packing === 'lzw' ? 'LZW' : packing}`}`;
  return file(megapixels, name, 'tiff', `${packing}.tif`, (size, path) =>
    picture(size, 16).tiff({ compression: packing, predictor: 'horizontal' }).toFile(path),
  );
}

export function pngFile(megapixels: number): BenchFile {
  return file(megapixels, '16-bit PNG', 'png', '16.png', (size, path) =>
    picture(size, 16).png().toFile(path),
  );
}

export function dngFile(megapixels: number): BenchFile {
  return file(megapixels, 'raw DNG', 'dng', 'raw.dng', async ([widthPx, heightPx], path) =>
    writeFileSync(path, largeDng(widthPx, heightPx)),
  );
}

function file(
  megapixels: number,
  what: string,
  kind: BenchFile['kind'],
  ending: string,
  write: (size: readonly [number, number], path: string) => Promise<unknown>,
): BenchFile {
  const size = SIZES[megapixels]!;
  const path = async () => {
    const finished = `${FOLDER}/${size[0]}x${size[1]}-${ending}`;
    if (existsSync(finished)) return finished;
    mkdirSync(FOLDER, { recursive: true });
    const unfinished = `${FOLDER}/unfinished-${ending}`; // one that was broken off is made anew
    await write(size, unfinished);
    renameSync(unfinished, finished);
    return finished;
  };
  return { name: `${megapixels} MP ${what}`, megapixels, kind, path };
}

/** A light off centre with noise of three 8-bit codes, or a tenth of that in 16 bits. */
function picture([widthPx, heightPx]: readonly [number, number], bits: 8 | 16): Sharp {
  const random = seededRandom(1);
  const [scale, scatter] = bits === 8 ? [1, 3] : [257, 77];
  const noise = Float32Array.from({ length: 1 << 16 }, () => scatter * random.normal());
  const samples = new (bits === 8 ? Uint8Array : Uint16Array)(widthPx * heightPx * 3);
  for (let y = 0, i = 0; y < heightPx; y++) {
    const down = (y / heightPx - 0.42) ** 2;
    for (let x = 0; x < widthPx; x++) {
      const level = scale * (222 - 150 * ((x / widthPx - 0.45) ** 2 + down));
      const at = Math.floor(random.uniform() * 65_533);
      for (let channel = 0; channel < 3; channel++)
        samples[i++] = level - 4 * scale * channel + noise[at + channel]!;
    }
  }
  const made = sharp(samples, { raw: { width: widthPx, height: heightPx, channels: 3 } });
  return bits === 8 ? made : made.toColourspace('rgb16');
}
