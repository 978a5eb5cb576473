import { mkdirSync, writeFileSync } from 'node:fs';
import { dirname } from 'node:path';
import sharp from 'sharp';

const WIDTH = 6000;
const HEIGHT = 4000;

let made: Promise<Buffer> | null = null;

/** Writes a 24-megapixel JPEG of a light off centre, with noise, to the path that it returns. Made once in a run. */
export async function writeLargeJpeg(path: string): Promise<string> {
  made ??= largeJpeg();
  mkdirSync(dirname(path), { recursive: true });
  writeFileSync(path, await made);
  return path;
}

function largeJpeg(): Promise<Buffer> {
  const pixels = Buffer.alloc(WIDTH * HEIGHT * 3);
  let seed = 1;
  for (let y = 0, i = 0; y < HEIGHT; y++) {
    const down = (y / HEIGHT - 0.4) ** 2;
    for (let x = 0; x < WIDTH; x++) {
      const level = 220 - 160 * ((x / WIDTH - 0.45) ** 2 + down);
      seed = (Math.imul(seed, 1_664_525) + 1_013_904_223) | 0;
      const noise = (seed >>> 24) / 64 - 2;
      pixels[i++] = level + noise;
      pixels[i++] = level + noise;
      pixels[i++] = level - noise;
    }
  }
  return sharp(pixels, { raw: { width: WIDTH, height: HEIGHT, channels: 3 } })
    .jpeg({ quality: 92, chromaSubsampling: '4:2:0' })
    .toBuffer();
}
