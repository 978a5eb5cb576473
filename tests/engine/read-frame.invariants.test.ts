import { describe, expect, test } from 'vitest';
import { readFrame } from '../../src/engine/read-frame.ts';
import type { FrameRectangle, Reading } from '../../src/engine/reading.ts';
import { UNKNOWN_SETUP } from '../../src/engine/setup.ts';
import { DEFAULT_TOLERANCE } from '../../src/engine/tolerances.ts';
import { expectWithin } from '../expect-within.ts';
import { nodePlatform } from '../node-platform.ts';
import { toJpeg, toPng } from '../synthetic/encode.ts';
import { fieldTruth } from '../synthetic/field-truth.ts';
import { exposedBy, type KnownField, randomField } from '../synthetic/known-field.ts';
import { type RenderedFrame, type RenderOptions, renderFrame } from '../synthetic/render-frame.ts';
import { storedAs } from '../synthetic/turn-frame.ts';
import { readBytes, WELL_ELECTRONS } from './known-frames.ts';
import { gapsOf } from './reading-gaps.ts';

const [WIDTH, HEIGHT] = [480, 320];

const render = (field: KnownField, options: Partial<RenderOptions> = {}): RenderedFrame =>
  renderFrame(field, {
    widthPx: WIDTH,
    heightPx: HEIGHT,
    bits: 16,
    curve: 'srgb',
    electronsAtFull: null,
    seed: 1,
    ...options,
  });

const readingOf = async (bytes: Uint8Array): Promise<Reading> => (await readBytes(bytes)).reading;

const read = (sources: readonly Uint8Array[], region?: FrameRectangle) =>
  readFrame(
    sources.map((bytes) => ({ name: 'blank.png', bytes })),
    { setup: UNKNOWN_SETUP, tolerance: DEFAULT_TOLERANCE, ...(region && { region }) },
    nodePlatform,
  );

const furthest = (a: readonly (number | null)[], b: readonly (number | null)[]) =>
  Math.max(...a.map((value, i) => Math.abs(value! - b[i]!)));

const turnDeg = (from: number, to: number) => ((((to - from) % 360) + 540) % 360) - 180;

/** How far the figures of two readings of one light lie apart, each in its own unit. */
function distances(a: Reading, b: Reading): Record<string, number> {
  return {
    'map ev': furthest(a.falloff.evMap, b.falloff.evMap),
    'spread ev': Math.abs(a.falloff.spreadEv - b.falloff.spreadEv),
    'std ev': Math.abs(a.falloff.stdEv - b.falloff.stdEv),
    // ratios of light as the stops they are
    'nine points ev': Math.abs(Math.log2(a.falloff.ninePointMinOverMax / b.falloff.ninePointMinOverMax)),
    'min over mean ev': Math.abs(Math.log2(a.falloff.minOverMean / b.falloff.minOverMean)),
    'from centre ev': Math.abs(Math.log2((1 + a.falloff.fromCentreMax) / (1 + b.falloff.fromCentreMax))),
    'map uv': Math.max(
      furthest(a.tint.uPrimeMap, b.tint.uPrimeMap),
      furthest(a.tint.vPrimeMap, b.tint.vPrimeMap),
    ),
    'tint uv': Math.abs(a.tint.spreadDeltaUv - b.tint.spreadDeltaUv),
    'cast uv': Math.hypot(a.cast.uPrime - b.cast.uPrime, a.cast.vPrime - b.cast.vPrime),
    'cast mired': Math.abs(a.cast.mired! - b.cast.mired!),
    'cast duv': Math.abs(a.cast.duv! - b.cast.duv!),
    'gradient ev': Math.abs(a.gradient.ev - b.gradient.ev),
    'gradient deg': Math.abs(turnDeg(a.gradient.angleDeg!, b.gradient.angleDeg!)),
    'gradient mired': Math.abs(a.gradient.mired! - b.gradient.mired!),
    'tint gradient uv': Math.abs(a.tintGradient.deltaUv - b.tintGradient.deltaUv),
    'tint gradient mired': Math.abs(a.tintGradient.mired! - b.tintGradient.mired!),
  };
}

/**
 * What 0.001 EV comes to: 0.1 EV in one channel moves u′v′ by 0.0049 at the most (computed from the sRGB primaries), so
 * 0.001 EV by 0.00005, which is 0.1 mired (10 mired are 0.0047 u′v′); an angle of a slope of 1 EV by 0.06°.
 */
const EQUAL_OF_A_THOUSANDTH: Readonly<Record<string, number>> = {
  ev: 0.001,
  uv: 0.00005,
  mired: 0.1,
  duv: 0.00005,
  deg: 0.06,
};

function keepWorst(worst: Record<string, number>, next: Record<string, number>): void {
  for (const [name, value] of Object.entries(next)) if (!(value <= (worst[name] ?? -1))) worst[name] = value;
}

const inWords = (worst: Record<string, number>) =>
  Object.entries(worst)
    .map(([name, value]) => `${name} ${value.toExponential(1)}`)
    .join(', ');

test('no figure moves by more than 0.001 EV or its equal from 0 to −4 EV of exposure', async () => {
  const worst: Record<string, number> = {};
  for (const seed of [3, 21]) {
    const { field } = randomField(seed, { spreadEv: seed === 3 ? 3 : 1, peak: 0.9 });
    const full = await readingOf(toPng(render(field)));
    for (const stops of [-1, -2, -3, -4])
      keepWorst(worst, distances(full, await readingOf(toPng(render(exposedBy(field, stops))))));
  }
  console.log(`measured: from 0 to −4 EV, furthest apart: ${inWords(worst)}`);
  for (const [name, value] of Object.entries(worst))
    expect(value, name).toBeLessThanOrEqual(EQUAL_OF_A_THOUSANDTH[name.split(' ').at(-1)!]!);
});

/** The picture itself turned clockwise by 90°, as if it had been taken so: orientation stays 1. */
const turnedClockwise = (frame: RenderedFrame) => storedAs(frame, 8);

test('a picture turned by 90° transposes the maps and turns the angles', async () => {
  const { field } = randomField(5, { family: 'quadratic', spreadEv: 1.5 });
  const frame = render(field, { widthPx: 490, heightPx: 330 }); // cells of uneven pixels
  const upright = await readingOf(toPng(frame));
  const turned = await readingOf(toPng(turnedClockwise(frame)));
  const { columns, rows } = upright.grid;
  expect([turned.grid.columns, turned.grid.rows]).toEqual([rows, columns]);
  /** Cell (column, row) of the upright picture lies at (rows − 1 − row, column) of the turned one. */
  const turnedBack = (map: readonly (number | null)[]) =>
    map.map((_, i) => map[(i % columns) * rows + (rows - 1 - Math.floor(i / columns))]!);
  const worst = distances(upright, {
    ...turned,
    falloff: { ...turned.falloff, evMap: turnedBack(turned.falloff.evMap) },
    tint: {
      ...turned.tint,
      uPrimeMap: turnedBack(turned.tint.uPrimeMap),
      vPrimeMap: turnedBack(turned.tint.vPrimeMap),
    },
    gradient: { ...turned.gradient, angleDeg: turned.gradient.angleDeg! - 90 },
  });
  const tintTurn = turnDeg(upright.tintGradient.angleDeg! + 90, turned.tintGradient.angleDeg!);
  console.log(`measured: after a turn by 90°: ${inWords(worst)}, tint gradient deg ${Math.abs(tintTurn)}`);
  for (const [name, value] of Object.entries(worst)) expect(value, name).toBeLessThan(1e-6);
  expectWithin(tintTurn, 0, 1e-6);
  const { brightestAt, darkestAt } = upright.falloff;
  expectWithin(turned.falloff.brightestAt.x, 1 - brightestAt.y, 1e-12);
  expectWithin(turned.falloff.brightestAt.y, brightestAt.x, 1e-12);
  expectWithin(turned.falloff.darkestAt.x, 1 - darkestAt.y, 1e-12);
  expectWithin(turned.gradient.to.x, 1 - upright.gradient.to.y, 1e-6);
  expectWithin(turned.gradient.to.y, upright.gradient.to.x, 1e-6);
  // slopes are per frame width, and the frame's width is another side now
  expectWithin(
    turned.falloff.steepestEvPerFrameWidth / upright.falloff.steepestEvPerFrameWidth,
    330 / 490,
    1e-9,
  );
});

describe('all eight Exif orientations of one picture read alike', () => {
  const { field } = randomField(12, { spreadEv: 1.2 });

  test('to 1e-9 in every figure, from PNGs, whose codes are the same', async () => {
    const frame = render(field, { widthPx: 245, heightPx: 162, electronsAtFull: WELL_ELECTRONS });
    const upright = await readingOf(toPng(frame));
    const worst: Record<string, number> = {};
    for (let orientation = 2; orientation <= 8; orientation++) {
      const turned = await readingOf(toPng(storedAs(frame, orientation), { exif: { orientation } }));
      expect(turned.frame).toMatchObject({ orientation, widthPx: 245, heightPx: 162 });
      expect(turned.grid).toEqual(upright.grid);
      keepWorst(worst, distances(upright, turned));
      expect(turned.verdict).toEqual(upright.verdict);
      expect(turned.falloff.brightestAt).toEqual(upright.falloff.brightestAt);
    }
    console.log(`measured: over the orientations of a PNG: ${inWords(worst)}`);
    for (const [name, value] of Object.entries(worst)) expect(value, name).toBeLessThan(1e-9);
  });

  test('within its own ± from JPEGs, whose blocks lie elsewhere when turned', async () => {
    const frame = render(field, { widthPx: 245, heightPx: 162, bits: 8, electronsAtFull: WELL_ELECTRONS });
    const files = await Promise.all(
      [1, 2, 3, 4, 5, 6, 7, 8].map((exifOrientation) =>
        toJpeg(storedAs(frame, exifOrientation), { quality: 92, chroma: '4:4:4', exifOrientation }),
      ),
    );
    const upright = await readingOf(files[0]!);
    let worst = 0;
    for (const file of files.slice(1)) {
      const turned = await readingOf(file);
      expect(turned.grid).toEqual(upright.grid);
      worst = Math.max(worst, furthest(turned.falloff.evMap, upright.falloff.evMap));
      expectWithin(
        turned.falloff.spreadEv,
        upright.falloff.spreadEv,
        turned.falloff.plusMinusEv + upright.falloff.plusMinusEv,
      );
      expectWithin(turnDeg(upright.gradient.angleDeg!, turned.gradient.angleDeg!), 0, 1);
    }
    console.log(
      `measured: over the orientations of a JPEG no cell moves by more than ${worst.toFixed(4)} EV`,
    );
    expect(worst).toBeLessThan(0.02);
  });
});

test('the same file reads the same, to the last bit, again and after another file', async () => {
  const bytes = toPng(render(randomField(4).field, { electronsAtFull: WELL_ELECTRONS }));
  const first = await read([bytes]);
  await readingOf(toPng(render(randomField(9).field, { widthPx: 96, heightPx: 64 })));
  expect(await read([bytes])).toEqual(first);
});

test('readFrame(region) reads that region: figures of its light, places across the whole frame', async () => {
  const { field } = randomField(30, { family: 'radial', spreadEv: 2 });
  const region = { left: 0.25, top: 0.1, right: 0.75, bottom: 0.85 };
  const { reading } = await read([toPng(render(field, { widthPx: 800, heightPx: 520 }))], region);
  const truth = fieldTruth(field, { ...reading.grid, widthPx: 800, heightPx: 520, region });
  expect(reading.region).toEqual(region);
  expect(gapsOf(reading)).toEqual([]);
  expectWithin(reading.falloff.spreadEv, truth.spreadEv, 0.001);
  expectWithin(reading.falloff.stdEv, truth.stdEv, 0.001);
  expectWithin(reading.tint.spreadDeltaUv, truth.spreadDeltaUv, 0.0001);
  expectWithin(turnDeg(truth.gradient.angleDeg, reading.gradient.angleDeg!), 0, 0.1);
  expectWithin(reading.gradient.ev, truth.gradient.ev, 0.001);
  expectWithin(reading.gradient.mired!, truth.gradient.mired, 0.1);
  for (const end of ['from', 'to'] as const) {
    expectWithin(reading.gradient[end].x, truth.gradient[end].x, 0.001);
    expectWithin(reading.gradient[end].y, truth.gradient[end].y, 0.001);
  }
  expectWithin(reading.falloff.brightestAt.x, truth.brightestAt.x, 0.01);
  expectWithin(reading.falloff.darkestAt.y, truth.darkestAt.y, 0.01);
  expect(reading.frame).toMatchObject({ widthPx: 800, heightPx: 520 });
});

test('four averaged frames have half the noise of one, and say how many they are', async () => {
  const { field } = randomField(14, { family: 'quadratic', spreadEv: 0.8 });
  const frames = [1, 2, 3, 4].map((seed) => toPng(render(field, { electronsAtFull: 3000, seed })));
  const [one, four] = [(await read(frames.slice(0, 1))).reading, (await read(frames)).reading];
  const truth = fieldTruth(field, { ...one.grid, widthPx: WIDTH, heightPx: HEIGHT });
  const rmsUv = ({ tint }: Reading) =>
    Math.sqrt(
      tint.uPrimeMap.reduce<number>((sum, u, i) => sum + (u! - truth.uPrimeMap[i]!) ** 2, 0) /
        tint.uPrimeMap.length,
    );
  const ratio = rmsUv(four) / rmsUv(one);
  console.log(
    `measured: four frames leave ${ratio.toFixed(3)} of one's error in u′; ± of the spread ${(four.falloff.plusMinusEv / one.falloff.plusMinusEv).toFixed(2)}, noise per cell ${(four.noise.perCellEv / one.noise.perCellEv).toFixed(2)}`,
  );
  expectWithin(ratio, 0.5, 0.05);
  expectWithin(four.noise.perCellEv / one.noise.perCellEv, 0.5, 0.05);
  expectWithin(four.noise.perPixelEv / one.noise.perPixelEv, 1, 0.05);
  expectWithin(four.falloff.plusMinusEv / one.falloff.plusMinusEv, 0.5, 0.2);
  expect([one.frame.averagedFrames, four.frame.averagedFrames]).toEqual([1, 4]);
});

test('a tenth of many cells behind specks moves no value of evMap by more than 0.01 EV', async () => {
  const { field } = randomField(17, { family: 'hot-spot', spreadEv: 2 });
  const frame = { widthPx: 640, heightPx: 480, bits: 8, electronsAtFull: WELL_ELECTRONS } as const;
  const clear = await readingOf(toPng(render(field, frame)));
  let worst = 0;
  for (const transmission of [0, 0.9, 0.95, 3]) {
    // a hanger's wire from top to bottom, and dust
    const specks = [
      { shape: 'box', x: 0.25, y: 0.5, widthPx: 1, heightPx: 480, transmission } as const,
      ...[0.4, 0.5, 0.6, 0.7].map(
        (x) => ({ shape: 'disc', x, y: x, widthPx: 3, heightPx: 3, transmission }) as const,
      ),
    ];
    const covered = await readingOf(toPng(render(field, { ...frame, specks })));
    worst = Math.max(worst, furthest(covered.falloff.evMap, clear.falloff.evMap));
  }
  console.log(`measured: behind a wire and dust no value of evMap moves by more than ${worst.toFixed(4)} EV`);
  expect(worst).toBeLessThanOrEqual(0.01);
});

describe('a Reading has every field of the contract, finite, and comes back from JSON as it was', () => {
  test.each([
    [
      'of a noisy 8-bit PNG',
      async () => toPng(render(randomField(6).field, { bits: 8, electronsAtFull: 3000 })),
    ],
    [
      'of a JPEG with Exif',
      async () =>
        toJpeg(render(randomField(7).field, { bits: 8 }), {
          quality: 90,
          chroma: '4:2:0',
          exif: {
            exposureTime: [1, 125],
            fNumber: [56, 10],
            iso: 100,
            focalLengthMm: 90,
            takenAt: '2026:03:01 10:20:30',
          },
        }),
    ],
    [
      'of a clipped 16-bit PNG',
      async () => toPng(render(exposedBy(randomField(8, { spreadEv: 1.5, peak: 0.9 }).field, 0.6))),
    ],
  ])('%s', async (_what, file) => {
    const reading = await readingOf(await file());
    expect(gapsOf(reading)).toEqual([]);
    expect(JSON.parse(JSON.stringify(reading))).toEqual(reading);
    expect(structuredClone(reading)).toEqual(reading);
    expect(reading.schema).toBe('evenfield.reading/1');
    expect(Math.max(...reading.falloff.evMap.map((ev) => ev!))).toBe(0);
    expectWithin(reading.falloff.spreadEv, -Math.min(...reading.falloff.evMap.map((ev) => ev!)), 1e-12);
  });
});
