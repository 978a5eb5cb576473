import { existsSync, mkdirSync } from 'node:fs';
import sharp from 'sharp';
import { seededRandom } from '../../src/engine/numeric/seeded-random.ts';

const FOLDER = '.bench';

/** Writes, once, a JPEG of a light off centre with noise of three codes, and returns its path. */
export async function largeJpeg(
  widthPx: number,
  heightPx: number,
  chroma: '4:4:4' | '4:2:0',
): Promise<string> {
  const path = `${FOLDER}/${widthPx}x${heightPx}-${chroma.replaceAll(':', '')}.jpg`;
  if (existsSync(path)) return path;
  mkdirSync(FOLDER, { recursive: true });
  const random = seededRandom(1);
  const noise = Float32Array.from({ length: 1 << 16 }, () => 3 * random.normal());
  const pixels = new Uint8Array(widthPx * heightPx * 3);
  for (let y = 0, i = 0; y < heightPx; y++) {
    const down = (y / heightPx - 0.42) ** 2;
    for (let x = 0; x < widthPx; x++) {
      const level = 222 - 150 * ((x / widthPx - 0.45) ** 2 + down);
      const at = Math.floor(random.uniform() * 65_533);
      for (let channel = 0; channel < 3; channel++) pixels[i++] = level - 4 * channel + noise[at + channel]!;
    }
  }
  const raw = { width: widthPx, height: heightPx, channels: 3 as const };
  await sharp(pixels, { raw }).jpeg({ quality: 95, chromaSubsampling: chroma }).toFile(path);
  return path;
}
