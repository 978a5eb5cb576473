import sharp from 'sharp';
import { describe, expect, test } from 'vitest';
import { readBlockMeans } from '../../../src/engine/intake/jpeg-block-means.ts';
import { seededRandom } from '../../../src/engine/numeric/seeded-random.ts';

/** A picture that is smooth in all three channels, of sizes that no block divides. */
function smoothRgb(widthPx: number, heightPx: number): Uint8Array {
  const random = seededRandom(7);
  return Uint8Array.from({ length: widthPx * heightPx * 3 }, (_, i) => {
    const x = Math.floor(i / 3) % widthPx;
    const y = Math.floor(i / 3 / widthPx);
    const level = [170 + 0.2 * x, 150 + 0.1 * y, 190 - 0.15 * x][i % 3]!;
    return Math.max(0, Math.min(255, Math.round(level + 0.6 * random.normal())));
  });
}

/** Mean of luma or chroma over a block of the original, each pixel rounded as encoders do. Source: ITU-T T.871, clause 7. */
function meanOf(
  rgb: Uint8Array,
  widthPx: number,
  x0: number,
  y0: number,
  side: number,
  component: number,
): number {
  let sum = 0;
  for (let y = y0; y < y0 + side; y++) {
    for (let x = x0; x < x0 + side; x++) {
      const [r, g, b] = [0, 1, 2].map((channel) => rgb[(y * widthPx + x) * 3 + channel]!) as [
        number,
        number,
        number,
      ];
      const luma = 0.299 * r + 0.587 * g + 0.114 * b;
      sum += Math.round(
        component === 0 ? luma : 128 + (component === 1 ? (b - luma) / 1.772 : (r - luma) / 1.402),
      );
    }
  }
  return sum / side ** 2;
}

const [WIDTH, HEIGHT] = [203, 117];
const RGB = smoothRgb(WIDTH, HEIGHT);
const RAW = { raw: { width: WIDTH, height: HEIGHT, channels: 3 as const } };

describe.each([
  ['baseline 4:4:4', { chromaSubsampling: '4:4:4', quality: 90 }, 3 / 8],
  ['baseline 4:2:0', { chromaSubsampling: '4:2:0', quality: 90 }, 3 / 8],
  ['progressive 4:4:4', { chromaSubsampling: '4:4:4', quality: 90, progressive: true }, 3 / 8],
  ['progressive 4:2:0', { chromaSubsampling: '4:2:0', quality: 90, progressive: true }, 3 / 8],
  ['of the best quality', { chromaSubsampling: '4:4:4', quality: 100 }, 1 / 8],
] as const)('readBlockMeans(bytes) of a JPEG, %s', (_, options, stepCodes) => {
  test('gives each block’s mean to half a step', async () => {
    const blocks = readBlockMeans(await sharp(RGB, RAW).jpeg(options).toBuffer())!;
    expect(blocks).toHaveLength(3);
    // the encoder's integer transform may miss by one unit, an eighth of a code; without bias
    const allowed = stepCodes / 2 + 1 / 8 + 0.01;
    let sum = 0;
    let count = 0;
    let worst = 0;
    blocks.forEach(({ across, widthPx, means }, component) => {
      expect(widthPx).toBe(component > 0 && options.chromaSubsampling === '4:2:0' ? 16 : 8);
      for (let y = 0; y + widthPx <= HEIGHT; y += widthPx) {
        for (let x = 0; x + widthPx <= WIDTH; x += widthPx) {
          const mean = means[(y / widthPx) * across + x / widthPx]!;
          const error = mean - meanOf(RGB, WIDTH, x, y, widthPx, component);
          worst = Math.max(worst, Math.abs(error));
          sum += error;
          count++;
        }
      }
    });
    console.log(
      `measured: block means, ${_}: worst ${worst.toFixed(3)} code, mean ${(sum / count).toFixed(3)}, half a step is ${stepCodes / 2}`,
    );
    expect(worst).toBeLessThanOrEqual(allowed);
    expect(Math.abs(sum / count)).toBeLessThanOrEqual(0.05);
  });
});

test('readBlockMeans(bytes) passes over blocks whose last coefficient is no zero', async () => {
  const random = seededRandom(11);
  const noise = Uint8Array.from(
    { length: WIDTH * HEIGHT * 3 },
    () => 50 + Math.floor(150 * random.uniform()),
  );
  const jpeg = sharp(noise, RAW).jpeg({ quality: 100, chromaSubsampling: '4:4:4' });
  const [luma] = readBlockMeans(await jpeg.toBuffer())!;
  let worst = 0;
  for (let y = 0; y + 8 <= HEIGHT; y += 8)
    for (let x = 0; x + 8 <= WIDTH; x += 8) {
      const mean = luma!.means[(y / 8) * luma!.across + x / 8]!;
      worst = Math.max(worst, Math.abs(mean - meanOf(noise, WIDTH, x, y, 8, 0)));
    }
  console.log(`measured: block means of noise: worst ${worst.toFixed(3)} code, half a step is 0.0625`);
  expect(worst).toBeLessThanOrEqual(1 / 16 + 1 / 8 + 0.01);
});

test('readBlockMeans(bytes) reads a grey JPEG as luma alone', async () => {
  const grey = await sharp(RGB, RAW).toColourspace('b-w').jpeg({ quality: 90 }).toBuffer();
  const blocks = readBlockMeans(grey)!;
  expect(blocks).toHaveLength(1);
  expect(blocks[0]!.across).toBe(Math.ceil(WIDTH / 8));
});

test('readBlockMeans(bytes) answers damaged scans with null or numbers, and never hangs', async () => {
  const random = seededRandom(3);
  const good = [
    await sharp(RGB, RAW).jpeg({ quality: 90 }).toBuffer(),
    await sharp(RGB, RAW).jpeg({ quality: 90, progressive: true }).toBuffer(),
  ];
  let slowest = 0;
  for (let i = 0; i < 300; i++) {
    const bytes = Uint8Array.from(good[i % 2]!);
    for (let k = 0; k < 4; k++)
      bytes[Math.floor(random.uniform() * bytes.length)] = Math.floor(random.uniform() * 256);
    const cut = i % 3 === 0 ? bytes.subarray(0, Math.floor(random.uniform() * bytes.length)) : bytes;
    const start = performance.now();
    const blocks = readBlockMeans(cut);
    slowest = Math.max(slowest, performance.now() - start);
    for (const { means } of blocks ?? []) expect(means.every(Number.isFinite)).toBe(true);
  }
  console.log(`measured: slowest of 300 damaged JPEGs ${slowest.toFixed(1)} ms`);
  expect(slowest).toBeLessThan(2000);
});
