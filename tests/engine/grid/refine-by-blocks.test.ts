import { expect, test } from 'vitest';
import { linearise } from '../../../src/engine/frame/linearise.ts';
import { cellsFromFrame } from '../../../src/engine/grid/cells-from-frame.ts';
import { refineByBlocks, standsInPlateaux } from '../../../src/engine/grid/refine-by-blocks.ts';
import { decodeImage } from '../../../src/engine/intake/decode-image.ts';
import { readBlockMeans } from '../../../src/engine/intake/jpeg-block-means.ts';
import { nodePlatform } from '../../node-platform.ts';
import { toJpeg } from '../../synthetic/encode.ts';
import { fieldTruth } from '../../synthetic/field-truth.ts';
import { randomField } from '../../synthetic/known-field.ts';
import { renderFrame } from '../../synthetic/render-frame.ts';
import { storedAs } from '../../synthetic/turn-frame.ts';

const [WIDTH, HEIGHT] = [900, 600];

async function jpegOf(
  seed: number,
  electronsAtFull: number | null,
  quality: number,
  orientation = 1,
  chroma: '4:4:4' | '4:2:0' = '4:2:0',
) {
  const { field } = randomField(seed);
  const frame = renderFrame(field, {
    widthPx: WIDTH,
    heightPx: HEIGHT,
    bits: 8,
    curve: 'srgb',
    electronsAtFull,
    seed,
  });
  const stored = storedAs(frame, orientation);
  return { field, bytes: await toJpeg(stored, { quality, chroma, exifOrientation: orientation }) };
}

async function gridOf(bytes: Uint8Array) {
  const { frame } = linearise(await decodeImage(bytes, nodePlatform));
  return { frame, grid: cellsFromFrame(frame) };
}

test.each([1, 6, 7])(
  'refineByBlocks(grid, frame, blocks) at least halves the error, Exif orientation %i',
  async (o) => {
    const { field, bytes } = await jpegOf(4, 30_000, 90, o);
    const { frame, grid } = await gridOf(bytes);
    const refined = refineByBlocks(grid, frame, readBlockMeans(bytes)!);
    const truth = fieldTruth(field, {
      columns: grid.columns,
      rows: grid.rows,
      widthPx: WIDTH,
      heightPx: HEIGHT,
    });
    const rmsEv = ({ light }: typeof grid) =>
      Math.sqrt(
        truth.cells.reduce((sum, [, y], i) => {
          const [r, g, b] = [light.red[i]!, light.green[i]!, light.blue[i]!];
          return sum + Math.log2((grid.toXyz[3] * r + grid.toXyz[4] * g + grid.toXyz[5] * b) / y) ** 2;
        }, 0) / truth.cells.length,
      );
    console.log(
      `measured: cells before ${rmsEv(grid).toFixed(5)} EV rms, refined ${rmsEv(refined).toFixed(5)} EV rms`,
    );
    expect(rmsEv(refined)).toBeLessThan(0.5 * rmsEv(grid));
  },
);

test('standsInPlateaux(grid) tells a JPEG whose noise was taken from one that kept it', async () => {
  expect(standsInPlateaux((await gridOf((await jpegOf(1, 30_000, 90)).bytes)).grid)).toBe(true);
  expect(standsInPlateaux((await gridOf((await jpegOf(1, null, 100)).bytes)).grid)).toBe(true);
  expect(standsInPlateaux((await gridOf((await jpegOf(1, 1_500, 100, 1, '4:4:4')).bytes)).grid)).toBe(false);
});
