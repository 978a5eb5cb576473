import { readdirSync, readFileSync, statSync } from 'node:fs';
import exifr from 'exifr';
import { decode } from 'fast-png';
import sharp from 'sharp';
import { describe, expect, test } from 'vitest';
import { decodeSrgb } from '../code-thresholds.ts';
import { uvPrimeOfXyz, type Xyz, xyzOfSrgbLight } from '../colour-truth.ts';
import { smoothedByPlanes } from '../plane-through-cells.ts';
import type { RenderedFrame } from '../render-frame.ts';
import type { Sample } from './sample.ts';
import { SAMPLES, SMALL_WIDTH_PX, sampleFrame, samplesJson, smallFile } from './sample-files.ts';
import { cellLayout, sampleTruth } from './sample-truth.ts';
import { samplesReadme } from './samples-readme.ts';
import { subjectBytes } from './tumbler-scene.ts';

const folder = new URL('../../../samples/', import.meta.url);
const onDisk = (file: string) => readFileSync(new URL(file, folder));
const truths = new Map(SAMPLES.map((sample) => [sample.file, sampleTruth(sample)]));

/**
 * RMS of absolute light in stops and of u′v′, on disk against the truth. PNG is held to what a reading is held to;
 * a JPEG of a tint that is the same all over is off by up to about one code in a channel, as its chroma is rounded
 * twice and never dithered.
 */
const LIMITS: Record<Sample['stored']['as'], { readonly ev: number; readonly uv: number }> = {
  png: { ev: 0.002, uv: 0.0002 },
  jpeg: { ev: 0.006, uv: 0.001 },
};

describe.each(SAMPLES)('samples/$file', (sample) => {
  const { figures, clippedShare } = truths.get(sample.file)!;

  test('holds the light of its truth', async () => {
    const { columns, rows } = cellLayout(sample);
    const frame = await decoded(sample);
    expect([frame.widthPx, frame.heightPx]).toEqual([sample.widthPx, sample.heightPx]);
    const { cells, clipped } = cellsOf(frame, columns, rows);
    const channels = ([0, 1, 2] as const).map((i) => cells.map((cell) => cell[i]));
    const [x, y, z] = channels.map((channel) => smoothedByPlanes(channel, columns, rows));
    // against absolute light, so that a clipped cell does not move the reference
    let [evSquares, uvSquares, counted] = [0, 0, 0];
    figures.smoothed.forEach((truth, i) => {
      if (nearClipping(clipped, i, columns, rows)) return;
      const [u, v] = uvPrimeOfXyz([x![i]!, y![i]!, z![i]!]);
      const [trueU, trueV] = uvPrimeOfXyz(truth);
      evSquares += Math.log2(y![i]! / truth[1]) ** 2;
      uvSquares += (u - trueU) ** 2 + (v - trueV) ** 2;
      counted++;
    });
    const ev = Math.sqrt(evSquares / counted);
    const uv = Math.sqrt(uvSquares / counted);
    console.log(`measured: ${sample.file} ${ev.toFixed(5)} EV RMS, ${uv.toFixed(6)} u′v′ RMS`);
    expect(counted / figures.cells.length).toBeGreaterThan(0.4);
    expect(ev).toBeLessThan(LIMITS[sample.stored.as].ev);
    expect(uv).toBeLessThan(LIMITS[sample.stored.as].uv);
    expect(
      Math.abs(clipped.filter((share) => share > 0.5).length / cells.length - clippedShare),
    ).toBeLessThan(0.01);
  });

  test('says how it was exposed', async () => {
    const said = await exifr.parse(onDisk(sample.file), { translateValues: false });
    const [over, under] = sample.exif.exposureTime!;
    expect([said.ExposureTime, said.FNumber, said.ISO]).toEqual([
      over / under,
      sample.exif.fNumber![0],
      sample.exif.iso,
    ]);
  });
});

test.each(SAMPLES.filter(({ stored }) => stored.as === 'png'))(
  'samples/$file holds exactly the codes that the generator renders',
  async (sample) => {
    expect((await decoded(sample)).samples).toEqual(sampleFrame(sample).samples);
  },
);

test.each(SAMPLES.filter(({ subjectFile }) => subjectFile !== undefined))(
  'samples/$subjectFile holds the codes that the generator renders, and says how it was exposed',
  async (sample) => {
    const bytes = onDisk(sample.subjectFile!);
    expect(new Uint8Array(bytes)).toEqual(new Uint8Array(await subjectBytes(sample)));
    const said = await exifr.parse(bytes, { translateValues: false });
    expect([said.FNumber, said.ISO]).toEqual([sample.exif.fNumber![0], sample.exif.iso]);
  },
);

test.each(SAMPLES)('the small picture of samples/$file shows that frame, in 4 kB at most', async (sample) => {
  const bytes = onDisk(smallFile(sample));
  const pixels = (of: Buffer) => sharp(of).resize(24, 16, { fit: 'fill' }).raw().toBuffer();
  const [small, frame] = await Promise.all([pixels(bytes), pixels(onDisk(sample.file))]);
  expect((await sharp(bytes).metadata()).width).toBe(SMALL_WIDTH_PX);
  expect(Math.max(...small.map((code, i) => Math.abs(code - frame[i]!)))).toBeLessThanOrEqual(6);
  expect(bytes.length).toBeLessThanOrEqual(4000);
});

test('samples.json and README.md on disk are what the generator writes', () => {
  expect(onDisk('samples.json').toString()).toBe(samplesJson());
  expect(onDisk('README.md').toString()).toBe(samplesReadme(truths));
});

test('samples/ holds these frames and nothing else, under 6 MB together', () => {
  const files = readdirSync(folder);
  expect(files.sort()).toEqual(
    [
      ...SAMPLES.flatMap(({ file, subjectFile }) => (subjectFile === undefined ? file : [file, subjectFile])),
      ...SAMPLES.map(smallFile),
      'README.md',
      'samples.json',
    ].sort(),
  );
  const bytes = files.reduce((sum, file) => sum + statSync(new URL(file, folder)).size, 0);
  console.log(`measured: ${files.length} files, ${(bytes / 1e6).toFixed(2)} MB`);
  expect(bytes).toBeLessThan(6e6);
});

async function decoded({ file, stored }: Sample): Promise<RenderedFrame> {
  if (stored.as === 'png') {
    const { width, height, data } = decode(onDisk(file), { checkCrc: true });
    return { widthPx: width, heightPx: height, bits: stored.bits, samples: data as Uint8Array | Uint16Array };
  }
  const { data, info } = await sharp(onDisk(file)).raw().toBuffer({ resolveWithObject: true });
  return { widthPx: info.width, heightPx: info.height, bits: 8, samples: new Uint8Array(data) };
}

/** Mean XYZ of the pixels whose centres lie in each cell, weighted by nothing, and the share at full scale. */
function cellsOf({ widthPx, heightPx, bits, samples }: RenderedFrame, columns: number, rows: number) {
  const top = 2 ** bits - 1;
  const sums = Array.from({ length: columns * rows }, () => [0, 0, 0, 0, 0]);
  for (let row = 0, at = 0; row < heightPx; row++) {
    for (let column = 0; column < widthPx; column++, at += 3) {
      // a pixel on a border is shared out by area, so that cells of a broken number of pixels stay in place
      for (const [cellRow, down] of shares(row, heightPx, rows)) {
        for (const [cellColumn, across] of shares(column, widthPx, columns)) {
          const sum = sums[cellRow * columns + cellColumn]!;
          const weight = down * across;
          let full = 0;
          for (let channel = 0; channel < 3; channel++) {
            const code = samples[at + channel]!;
            if (code === top) full = 1;
            sum[channel]! += weight * decodeSrgb(code / top);
          }
          sum[3]! += weight * full;
          sum[4]! += weight;
        }
      }
    }
  }
  const cells = sums.map(([r, g, b, , n]): Xyz => xyzOfSrgbLight([r! / n!, g! / n!, b! / n!]));
  return { cells, clipped: sums.map(([, , , full, n]) => full! / n!) };
}

/** The one or two cells that a pixel lies in, with its share in each. */
function shares(pixel: number, pixels: number, cells: number): [number, number][] {
  const first = Math.floor((pixel * cells) / pixels + 1e-9);
  const border = ((first + 1) * pixels) / cells;
  if (border >= pixel + 1 - 1e-9) return [[first, 1]];
  return [
    [first, border - pixel],
    [first + 1, pixel + 1 - border],
  ];
}

/** Whether any of the 5 × 5 cells around one holds a pixel at full scale. */
function nearClipping(clipped: readonly number[], index: number, columns: number, rows: number): boolean {
  const [column, row] = [index % columns, Math.floor(index / columns)];
  for (let y = Math.max(0, row - 2); y <= Math.min(rows - 1, row + 2); y++)
    for (let x = Math.max(0, column - 2); x <= Math.min(columns - 1, column + 2); x++)
      if (clipped[y * columns + x]! > 0) return true;
  return false;
}
