import { describe, expect, test } from 'vitest';
import { backgroundLevel } from '../../../src/engine/exposure/background-level.ts';
import { expectWithin } from '../../expect-within.ts';
import { dngOf } from '../../synthetic/bayer-mosaic.ts';
import { srgbLightOfXyz } from '../../synthetic/colour-truth.ts';
import { toJpeg, toPng } from '../../synthetic/encode.ts';
import { fieldTruth } from '../../synthetic/field-truth.ts';
import { exposedBy, type KnownField, randomField } from '../../synthetic/known-field.ts';
import { HEIGHT, render, WIDTH } from '../blank-render.ts';
import { measureBytes } from '../known-frames.ts';

async function levelOf(bytes: Uint8Array, name?: string) {
  const { grid, light } = await measureBytes(bytes, name);
  return { level: backgroundLevel(grid, light), grid };
}

const linearPng = (field: KnownField) => toPng(render(field, { curve: 'linear' }), { gamma: 1 });

/** log2 of the luminance of the smoothed cells of a field without a fault. */
function trueStops(field: KnownField, { columns, rows }: { columns: number; rows: number }) {
  const { smoothed } = fieldTruth(field, { columns, rows, widthPx: WIDTH, heightPx: HEIGHT });
  const luminance = smoothed.map(([, y]) => y);
  const mean = luminance.reduce((sum, y) => sum + y, 0) / luminance.length;
  return {
    mean: Math.log2(mean),
    brightest: Math.log2(Math.max(...luminance)),
    darkest: Math.log2(Math.min(...luminance)),
    first: Math.log2(Math.max(...smoothed.flatMap((xyz) => srgbLightOfXyz(xyz)))),
  };
}

describe('backgroundLevel(grid) tells known light against the clip level', () => {
  test.each([1, 2, 3, 4, 5, 6])('16 bits, linear, field %i, within 0.01 EV', async (seed) => {
    const { field, describe: drawn } = randomField(seed, { peak: 0.2 + 0.1 * seed });
    const { level, grid } = await levelOf(linearPng(field));
    const truth = trueStops(field, grid);
    console.log(`measured: ${drawn}: brightest off by ${level.brightestEv! - truth.brightest} EV`);
    expectWithin(level.meanEv!, truth.mean, 0.01);
    expectWithin(level.brightestEv!, truth.brightest, 0.01);
    expectWithin(level.darkestEv!, truth.darkest, 0.01);
    expectWithin(level.firstEv!, truth.first, 0.01);
    expect(level).toMatchObject({ overEv: null, isAssumed: false, clippedShare: 0 });
  });

  test('names the channel that clips first', async () => {
    const warm: KnownField = () => [0.8, 0.5, 0.3];
    const cool: KnownField = () => [0.3, 0.5, 0.8];
    expect((await levelOf(linearPng(warm))).level).toMatchObject({ firstChannel: 'red' });
    const { level } = await levelOf(linearPng(cool));
    expect(level.firstChannel).toBe('blue');
    expectWithin(level.firstEv!, Math.log2(0.8), 0.001);
  });

  test('gives a bound where the frame is clipped, and the darkest part where that is seen', async () => {
    const { field } = randomField(8, {
      family: 'plane',
      spreadEv: 1.5,
      peak: 1,
      largestCastEv: 0,
      largestTintEv: 0,
    });
    const { level, grid } = await levelOf(linearPng(exposedBy(field, 0.6)));
    expect(level).toMatchObject({ meanEv: null, brightestEv: null, firstEv: null });
    expectWithin(level.darkestEv!, trueStops(exposedBy(field, 0.6), grid).darkest, 0.01);
    expectWithin(level.overEv!, 0.6, 0.1);
    expect(level.meanAtLeastEv).toBeLessThan(trueStops(exposedBy(field, 0.6), grid).mean);
    expect(level.clippedShare).toBeGreaterThan(0.2);
  });

  test('tells a camera’s raw file against where each of its channels is full', async () => {
    const grey: KnownField = () => [0.4, 0.4, 0.4];
    const bytes = dngOf(grey, {
      ...{ order: 'RGGB', bits: 14, black: { rows: 1, columns: 1, levels: [512] }, white: 15_000 },
      ...{ widthPx: 480, heightPx: 320, electronsAtWhite: 80_000, seed: 3 },
    });
    const { level, grid } = await levelOf(bytes, 'blank.dng');
    expectWithin(level.meanEv!, Math.log2(0.4), 0.01);
    // what the balance multiplies a channel by, it multiplies that channel's full level by too
    const { clipLight, light } = grid;
    expect(Math.max(...clipLight!)).toBeGreaterThan(1.05);
    const headroom = [light.red, light.green, light.blue].map((cells, i) => cells[100]! / clipLight![i]!);
    expectWithin(level.firstEv!, Math.log2(Math.max(...headroom)), 0.02);
  });
});

test('backgroundLevel(grid) of a JPEG says that its stops are assumed, and allows for a tone curve', async () => {
  const grey: KnownField = () => [0.4, 0.4, 0.4];
  const jpeg = await toJpeg(render(grey, { bits: 8 }), { quality: 92, chroma: '4:4:4' });
  const { level } = await levelOf(jpeg, 'blank.jpg');
  expect(level.isAssumed).toBe(true);
  expectWithin(level.meanEv!, Math.log2(0.4), 0.01);
  expect(level.meanPlusMinusEv!).toBeGreaterThan(0.3);
  const { level: linear } = await levelOf(linearPng(grey));
  expect(linear.meanPlusMinusEv!).toBeLessThan(0.01);
});
