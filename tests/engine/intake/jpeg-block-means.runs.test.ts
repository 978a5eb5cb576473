import sharp, { type JpegOptions } from 'sharp';
import { beforeEach, describe, expect, test, vi } from 'vitest';
import { acRuns } from '../../../src/engine/intake/ac-runs.ts';
import { readBlockMeans } from '../../../src/engine/intake/jpeg-block-means.ts';
import { seededRandom } from '../../../src/engine/numeric/seeded-random.ts';

type AcRunsModule = typeof import('../../../src/engine/intake/ac-runs.ts');

vi.mock('../../../src/engine/intake/ac-runs.ts', async (original) => {
  const real = await original<AcRunsModule>();
  return { ...real, acRuns: vi.fn(real.acRuns) };
});
beforeEach(() => void vi.mocked(acRuns).mockClear());

/** 5120 blocks of 8 × 8, and a strip of 640 of them. */
const [WIDTH, HEIGHT] = [640, 512];
const STRIP_PX = 64;

const random = seededRandom(23);
const level = (i: number, noise: number) =>
  Math.round(120 + 0.1 * (Math.floor(i / 3) % WIDTH) + noise * (random.uniform() - 0.5));
const pictureOf = (noise: number) =>
  Uint8Array.from({ length: WIDTH * HEIGHT * 3 }, (_, i) => level(i, noise));
const [SMOOTH, ROUGH] = [pictureOf(4), pictureOf(110)];

const jpegOf = (rgb: Uint8Array, heightPx: number, options: JpegOptions) =>
  sharp(rgb.subarray(0, WIDTH * heightPx * 3), { raw: { width: WIDTH, height: heightPx, channels: 3 } })
    .jpeg(options)
    .toBuffer();

const meansOf = (blocks: ReturnType<typeof readBlockMeans>) => blocks?.map(({ means }) => means);

/** The same bytes without any runs. */
function readByCode(bytes: Uint8Array): ReturnType<typeof readBlockMeans> {
  const real = vi.mocked(acRuns).getMockImplementation()!;
  vi.mocked(acRuns).mockImplementation(() => new Uint16Array(1 << 16));
  try {
    return readBlockMeans(bytes);
  } finally {
    vi.mocked(acRuns).mockImplementation(real);
  }
}

describe.each([
  ['smooth, 4:4:4', SMOOTH, { quality: 90, chromaSubsampling: '4:4:4' }, 3],
  ['smooth, 4:2:0, whose chroma has fewer blocks', SMOOTH, { quality: 90, chromaSubsampling: '4:2:0' }, 1],
  ['rough, to the last coefficient', ROUGH, { quality: 100, chromaSubsampling: '4:4:4' }, 3],
] as const)('readBlockMeans(bytes) of a JPEG that is %s', (_, rgb, options, byRuns) => {
  test('reads the same by runs and code by code', async () => {
    const bytes = await jpegOf(rgb, HEIGHT, options);
    const blocks = readBlockMeans(bytes)!;
    expect(acRuns).toHaveBeenCalledTimes(byRuns);
    expect(blocks).toHaveLength(3);
    expect(meansOf(readByCode(bytes))).toEqual(meansOf(blocks));
  });

  test('makes no runs for a scan of few blocks, and reads it the same', async () => {
    const whole = readBlockMeans(await jpegOf(rgb, HEIGHT, options))!;
    vi.mocked(acRuns).mockClear();
    const strip = readBlockMeans(await jpegOf(rgb, STRIP_PX, options))!;
    expect(acRuns).not.toHaveBeenCalled();
    strip.forEach(({ means, across }, component) => {
      expect(means).toHaveLength((across * STRIP_PX) / whole[component]!.heightPx);
      expect(means).toEqual(whole[component]!.means.subarray(0, means.length));
    });
  });
});

test('readBlockMeans(bytes) reads damaged scans the same by runs and code by code', async () => {
  const good = await jpegOf(SMOOTH, HEIGHT, { quality: 90, chromaSubsampling: '4:4:4' });
  let read = 0;
  for (let i = 0; i < 60; i++) {
    const bytes = Uint8Array.from(good);
    for (let k = 0; k < 4; k++)
      bytes[Math.floor(random.uniform() * bytes.length)] = Math.floor(random.uniform() * 256);
    const cut = i % 3 === 0 ? bytes.subarray(0, Math.floor(random.uniform() * bytes.length)) : bytes;
    const blocks = readBlockMeans(cut);
    if (blocks) read++;
    expect(meansOf(readByCode(cut))).toEqual(meansOf(blocks));
  }
  console.log(`measured: ${read} of 60 damaged JPEGs read, by runs as code by code`);
  expect(read).toBeGreaterThan(5);
});
