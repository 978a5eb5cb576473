import { describe, expect, test } from 'vitest';
import { linearise } from '../../src/engine/frame/linearise.ts';
import { cellsFromFrame } from '../../src/engine/grid/cells-from-frame.ts';
import { decodeImage } from '../../src/engine/intake/decode-image.ts';
import { nodePlatform } from '../node-platform.ts';
import { sharedPhoto, sharedPhotosPresent } from '../shared-photos.ts';

const NAME = 'raw/slr-14bit-1888x1182.dng';
/** As the file's own tags say: 14 bits packed from byte 1536 on, red first in its active area. */
const [RAW_WIDTH, STRIP_AT] = [1888, 1536];
const AREA = { top: 26, left: 152, bottom: 1182, right: 1886 };
const QUADS = { width: (AREA.right - AREA.left) >> 1, height: (AREA.bottom - AREA.top) >> 1 };
const [BLACK, WHITE] = [2056, 15_000];
/** So low that the photograph's bright parts count as clipped. */
const LOW_WHITE = 6000;
/** The entry of the tag WhiteLevel (50717): one number of 32 bits, which follows. */
const WHITE_LEVEL_ENTRY = '1dc6040001000000';
const [COLUMNS, ROWS] = [96, 64];

/** One cell of the sensor, from its own 14 bits. */
function cellOf(bytes: Uint8Array, x: number, y: number): number {
  const bit = (y * RAW_WIDTH + x) * 14;
  const at = STRIP_AT + (bit >> 3);
  const word = (bytes[at]! << 16) | (bytes[at + 1]! << 8) | (bytes[at + 2] ?? 0);
  return (word >> (10 - (bit & 7))) & 0x3fff;
}

interface Cells {
  /** Light above black as a share of white, red, green and blue in turn for each cell. */
  readonly light: Float64Array;
  readonly clipped: Float64Array;
}

/** Plain means of whole quads over the cells of a grid, straight from the file's bytes. */
function independentCells(
  bytes: Uint8Array,
  width = QUADS.width,
  height = QUADS.height,
  white = WHITE,
): Cells {
  return gridOf(width, height, (column, row) => {
    const [x, y] = [AREA.left + 2 * column, AREA.top + 2 * row];
    const quad = [
      cellOf(bytes, x, y),
      cellOf(bytes, x + 1, y),
      cellOf(bytes, x, y + 1),
      cellOf(bytes, x + 1, y + 1),
    ];
    const above = quad.map((cell) => (cell - BLACK) / (white - BLACK));
    return [above[0]!, (above[1]! + above[2]!) / 2, above[3]!, quad.some((cell) => cell >= white) ? 1 : 0];
  });
}

function gridOf(
  width: number,
  height: number,
  pixel: (column: number, row: number) => readonly [number, number, number, number],
): Cells {
  const light = new Float64Array(COLUMNS * ROWS * 3);
  const clipped = new Float64Array(COLUMNS * ROWS);
  const count = new Float64Array(COLUMNS * ROWS);
  for (let row = 0; row < height; row++)
    for (let column = 0; column < width; column++) {
      const cell = Math.floor((row * ROWS) / height) * COLUMNS + Math.floor((column * COLUMNS) / width);
      const [red, green, blue, isClipped] = pixel(column, row);
      light[3 * cell]! += red;
      light[3 * cell + 1]! += green;
      light[3 * cell + 2]! += blue;
      clipped[cell]! += isClipped;
      count[cell]!++;
    }
  return { light: light.map((sum, i) => sum / count[Math.floor(i / 3)]!), clipped };
}

/** Largest difference from 1 of the ratios of two lists. */
function worstShare(a: Float64Array, b: Float64Array): number {
  return a.reduce((worst, value, i) => Math.max(worst, Math.abs(value / b[i]! - 1)), 0);
}

describe.skipIf(!sharedPhotosPresent)('a real raw photograph', () => {
  test('gives the cells, colour ratios and clipped pixels that its mosaic holds', async () => {
    const bytes = sharedPhoto(NAME);
    const own = independentCells(bytes);
    const stored = await decodeImage(bytes, nodePlatform);
    const { frame } = linearise(stored);
    const { widthPx, samples, lightAtCode, clipCode } = frame;
    const [redTimes, , blueTimes] = [lightAtCode.red, lightAtCode.green, lightAtCode.blue].map(
      (table) => table[65535]!,
    );
    const read = gridOf(widthPx, frame.heightPx, (column, row) => {
      const at = 3 * (row * widthPx + column);
      const codes = [samples[at]!, samples[at + 1]!, samples[at + 2]!];
      return [
        lightAtCode.red[codes[0]!]! / redTimes!,
        lightAtCode.green[codes[1]!]! / lightAtCode.green[65535]!,
        lightAtCode.blue[codes[2]!]! / blueTimes!,
        codes.some((code) => code >= clipCode) ? 1 : 0,
      ];
    });
    const ratios = (light: Float64Array) =>
      light.map((value, i) => (i % 3 === 1 ? 1 : value / light[3 * Math.floor(i / 3) + 1]!));
    const clippedOwn = own.clipped.reduce((a, b) => a + b, 0);
    const clippedRead = read.clipped.reduce((a, b) => a + b, 0);
    console.log(
      `measured: real raw, ${COLUMNS} × ${ROWS} cells: means within ${worstShare(read.light, own.light).toExponential(1)}, ` +
        `ratios within ${worstShare(ratios(read.light), ratios(own.light)).toExponential(1)}, ` +
        `clipped ${clippedRead} of ${clippedOwn} (limit 0.001)`,
    );
    expect(worstShare(read.light, own.light)).toBeLessThan(0.001);
    expect(worstShare(ratios(read.light), ratios(own.light))).toBeLessThan(0.001);
    expect(read.clipped).toEqual(own.clipped);
  });

  test('counts as clipped what the mosaic holds at and over white', async () => {
    const bytes = sharedPhoto(NAME).slice();
    const whiteLevel = Buffer.from(bytes.buffer, bytes.byteOffset).indexOf(
      Buffer.from(WHITE_LEVEL_ENTRY, 'hex'),
    );
    new DataView(bytes.buffer, bytes.byteOffset).setUint32(whiteLevel + 8, LOW_WHITE, true);
    const { frame } = linearise(await decodeImage(bytes, nodePlatform));
    const { widthPx, samples, clipCode } = frame;
    const read = gridOf(widthPx, frame.heightPx, (column, row) => {
      const at = 3 * (row * widthPx + column);
      return [0, 0, 0, samples.subarray(at, at + 3).some((code) => code >= clipCode) ? 1 : 0];
    });
    const own = independentCells(bytes, QUADS.width, QUADS.height, LOW_WHITE);
    const count = own.clipped.reduce((a, b) => a + b, 0);
    console.log(
      `measured: with white at ${LOW_WHITE}, ${count} pixels of the real raw are clipped, each in its cell`,
    );
    expect(count).toBeGreaterThan(1000);
    expect(read.clipped).toEqual(own.clipped);
  });

  test('is measured in the same cells, where none of a cell’s pixels is set aside', async () => {
    const bytes = sharedPhoto(NAME);
    const stored = await decodeImage(bytes, nodePlatform);
    const { frame, colourProfile } = linearise(stored);
    // cells of whole pixels, 9 × 9, so that none is brought to another centre
    const [width, height] = [COLUMNS * 9, ROWS * 9];
    const region = { left: 0, top: 0, right: width / QUADS.width, bottom: height / QUADS.height };
    const { light, speckShare, columns, rows } = cellsFromFrame(frame, region);
    expect([columns, rows]).toEqual([COLUMNS, ROWS]);
    const own = independentCells(bytes, width, height).light;
    const { red, green, blue } = frame.lightAtCode;
    const times = [red[65535]!, green[65535]!, blue[65535]!];
    let [compared, worst, worstRatio] = [0, 0, 0];
    for (let cell = 0; cell < COLUMNS * ROWS; cell++) {
      if (speckShare[cell]! > 0 || Number.isNaN(light.green[cell]!)) continue;
      const its = [light.red, light.green, light.blue].map((values, i) => values[cell]! / times[i]!);
      const share = its.map((value, i) => value / own[3 * cell + i]! - 1);
      worst = Math.max(worst, ...share.map(Math.abs));
      worstRatio = Math.max(worstRatio, Math.abs(share[0]! - share[1]!), Math.abs(share[2]! - share[1]!));
      compared++;
    }
    console.log(
      `measured: real raw, ${compared} cells of the grid without specks: means within ${worst.toExponential(1)}, ratios within ${worstRatio.toExponential(1)}`,
    );
    expect(compared).toBeGreaterThan(2000);
    expect(worst).toBeLessThan(0.001);
    expect(worstRatio).toBeLessThan(0.001);
    expect(colourProfile).toMatch(/^the camera’s own \(.+\)$/);
    expect(frame.lightSays).toMatch(
      /masked margin reads 8\.\d codes beside the black level that the file gives/,
    );
    expect(frame.doubt.blackLight).toBeGreaterThan(0.0005);
  });

  test('reads as the decoder’s own half-size picture does', async () => {
    const raw = await nodePlatform.openRaw!(sharedPhoto(NAME));
    const half = await raw.developed({ halfSize: true, multipliers: [1, 1, 1] });
    const stored = await decodeImage(sharedPhoto(NAME), nodePlatform);
    const { zero, white, clip } = stored.raw!.codes;
    let [compared, worst] = [0, 0];
    const sums = [0, 0, 0, 0, 0, 0];
    for (let pixel = 0; pixel < stored.widthPx * stored.heightPx; pixel += 7) {
      const [row, column] = [Math.floor(pixel / stored.widthPx), pixel % stored.widthPx];
      for (let channel = 0; channel < 3; channel++) {
        const code = stored.samples[3 * pixel + channel]!;
        const light = (code - zero[channel]!) / (white[channel]! - zero[channel]!);
        const its = half.data[3 * (row * half.width + column) + channel]! / 65535;
        if (code >= clip || light < 0.02) continue; // darker, noise below black is cut off in the other one
        worst = Math.max(worst, Math.abs(light - its));
        sums[channel]! += light;
        sums[channel + 3]! += its;
        compared++;
      }
    }
    const ratio = [0, 1, 2].map((channel) => sums[channel]! / sums[channel + 3]! - 1);
    console.log(
      `measured: against the half-size picture: ${compared} values within ${worst.toExponential(1)} of white, means within ${ratio.map((r) => r.toExponential(1))}`,
    );
    expect(compared).toBeGreaterThan(100_000);
    expect(Math.max(...ratio.map(Math.abs))).toBeLessThan(0.001);
    expect(worst).toBeLessThan(2 / (WHITE - BLACK));
  });
});
