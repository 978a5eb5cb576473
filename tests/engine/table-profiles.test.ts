import { expect, test } from 'vitest';
import { correctFrame } from '../../src/engine/correct-frame.ts';
import { linearise } from '../../src/engine/frame/linearise.ts';
import { decodeImage } from '../../src/engine/intake/decode-image.ts';
import { transformVector3 } from '../../src/engine/numeric/matrix3.ts';
import { openToCorrect } from '../../src/engine/preview-correction.ts';
import { nodePlatform } from '../node-platform.ts';
import { toJpeg, toPng } from '../synthetic/encode.ts';
import { type RenderedFrame, renderFrame } from '../synthetic/render-frame.ts';
import { latticeOf, profileOf } from './correct/profile-of.ts';
import { wholeFile } from './export/read-back.ts';
import { SRGB_AS_TABLES } from './intake/srgb-as-tables.ts';
import { measureBytes } from './known-frames.ts';

/** Brighter and warmer to the right, and clipped there in its red alone; blocked in none. */
function frameOf(bits: 8 | 16): RenderedFrame {
  const field = (x: number, y: number) => {
    const level = 0.9 * 2 ** (-1.2 * (1 - x) - 0.4 * y);
    return [level * (1 + 0.25 * x), level, level * (1 - 0.2 * x)] as const;
  };
  const shown = {
    widthPx: 480,
    heightPx: 320,
    bits,
    curve: 'srgb',
    electronsAtFull: 30_000,
    seed: 7,
  } as const;
  return renderFrame(field, shown);
}

/** Largest difference of two maps that have values in the same places. */
function apart(a: readonly (number | null)[], b: readonly (number | null)[]): number {
  return a.reduce((most: number, value, i) => {
    expect(value === null).toBe(b[i] === null);
    return value === null ? most : Math.max(most, Math.abs(value - b[i]!));
  }, 0);
}

test('measureFrame() reads a picture by tables as it does by the matrix that they hold, clipping and ± too', async () => {
  for (const bits of [8, 16] as const) {
    const frame = frameOf(bits);
    const { measurement: plain } = await measureBytes(toPng(frame, { srgb: true }));
    const { measurement: read } = await measureBytes(toPng(frame, { icc: SRGB_AS_TABLES }));
    const falloffEv = apart(read.falloff.evMap, plain.falloff.evMap);
    const tint = Math.max(
      apart(read.tint.uPrimeMap, plain.tint.uPrimeMap),
      apart(read.tint.vPrimeMap, plain.tint.vPrimeMap),
    );
    console.log(
      `measured: ${bits} bits by tables against a matrix: falloff within ${falloffEv.toFixed(5)} EV, u′v′ within ${tint.toFixed(5)}, ` +
        `± ${read.falloff.plusMinusEv.toFixed(4)} against ${plain.falloff.plusMinusEv.toFixed(4)} EV, ` +
        `clipped ${(100 * read.clipping.highlightShare).toFixed(2)} %`,
    );
    expect(falloffEv).toBeLessThan(0.003);
    expect(tint).toBeLessThan(0.0003);
    expect(plain.clipping.highlightShare).toBeGreaterThan(0.001);
    expect(read.clipping).toEqual(plain.clipping);
    expect(read.falloff.isLowerBound).toBe(plain.falloff.isLowerBound);
    expect(Math.abs(Math.log2(read.falloff.plusMinusEv / plain.falloff.plusMinusEv))).toBeLessThan(0.5);
    expect(read.frame.bitsPerSample).toBe(bits);
    expect(read.frame.colourProfile).toBe('As tables');
    expect(read.frame.light).toBe('display-decoded');
  }
});

/** Mean light of each 40 × 40 block, XYZ under D65. */
async function blocks(file: Uint8Array) {
  const { frame } = linearise(await decodeImage(file, nodePlatform));
  const { red, green, blue } = frame.lightAtCode;
  const means: number[] = [];
  for (let top = 0; top < 320; top += 40)
    for (let left = 0; left < 480; left += 40) {
      const sum = [0, 0, 0];
      for (let y = top; y < top + 40; y++)
        for (let x = left; x < left + 40; x++) {
          const at = (y * 480 + x) * frame.channels;
          const [r, g, b] = [0, 1, 2].map((i) => frame.samples[at + (frame.channels < 3 ? 0 : i)]!);
          transformVector3(frame.toXyz, [red[r!]!, green[g!]!, blue[b!]!]).forEach((value, i) => {
            sum[i]! += value / 1600;
          });
        }
      means.push(...sum);
    }
  return means;
}

test('correctFrame() writes what was read by tables in a wide space, with a profile that says so', async () => {
  const gains = profileOf(latticeOf(5, 4, (x, y) => [-0.3 * x, 0.2 * y - 0.2, -0.1]));
  const frame = frameOf(8);
  const corrected = async (bytes: Uint8Array, options: Parameters<typeof correctFrame>[2]) => {
    const file = await correctFrame({ name: 'a.png', bytes }, gains, options, nodePlatform);
    return { ...file, light: await blocks(wholeFile(file.parts)) };
  };
  const plain = await corrected(toPng(frame, { srgb: true }), {});
  for (const [format, bits, limit] of [
    ['tiff', 16, 0.001],
    ['png', 8, 0.002],
    ['jpeg', 8, 0.01],
  ] as const) {
    const file = await corrected(toPng(frame, { icc: SRGB_AS_TABLES }), { format, bits });
    const worst = file.light.reduce(
      (most, value, i) => Math.max(most, Math.abs(value / plain.light[i]! - 1)),
      0,
    );
    console.log(
      `measured: ${format}, ${bits} bits: blocks' XYZ within ${(100 * worst).toFixed(3)} % of the plain file's`,
    );
    expect(worst).toBeLessThan(limit);
    expect(file.flags.join(' ')).toContain('wide RGB space');
    expect(file.clippedBefore).toBe(plain.clippedBefore);
    const written = await decodeImage(wholeFile(file.parts), nodePlatform);
    expect(linearise(written).colourProfile).toBe('Wide RGB');
  }
  expect(plain.flags.join(' ')).not.toContain('wide RGB space');
});

test('openToCorrect() counts what the file held clipped, where tables were gone by', async () => {
  const frame = frameOf(8);
  const plain = await openToCorrect({ name: 'a.png', bytes: toPng(frame, { srgb: true }) }, nodePlatform);
  const read = await openToCorrect(
    { name: 'a.png', bytes: toPng(frame, { icc: SRGB_AS_TABLES }) },
    nodePlatform,
  );
  expect(plain.small.clippedShare).toBeGreaterThan(0.001);
  expect(read.small.clippedShare).toBe(plain.small.clippedShare);
  expect(read.small.clipped).toEqual(plain.small.clipped);
  expect(read.small.frame.fileCodes).toBeUndefined();
  expect(read.sample[0]!.fileCodes!.extremes.length).toBe(read.sample[0]!.widthPx * read.sample[0]!.heightPx);
});

test('a JPEG whose profile holds tables reads by them, without its blocks’ means', async () => {
  const frame = frameOf(8);
  const options = { quality: 95, chroma: '4:4:4' } as const;
  const { measurement: plain } = await measureBytes(await toJpeg(frame, options), 'a.jpg');
  const { measurement: read } = await measureBytes(
    await toJpeg(frame, { ...options, icc: SRGB_AS_TABLES }),
    'b.jpg',
  );
  const falloffEv = apart(read.falloff.evMap, plain.falloff.evMap);
  console.log(`measured: JPEG by tables: falloff within ${falloffEv.toFixed(4)} EV of the plain one's`);
  expect(falloffEv).toBeLessThan(0.01);
  expect(read.clipping).toEqual(plain.clipping);
});
