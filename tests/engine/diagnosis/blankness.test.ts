import sharp from 'sharp';
import { describe, expect, test } from 'vitest';
import { unsmoothCells } from '../../../src/engine/diagnosis/blankness.ts';
import { seededRandom } from '../../../src/engine/numeric/seeded-random.ts';
import type { FrameRectangle } from '../../../src/engine/reading.ts';
import { BUSY } from '../../busy-machine.ts';
import { expectWithin } from '../../expect-within.ts';
import { sharedPhoto, sharedPhotosPresent } from '../../shared-photos.ts';
import { gridOfCodes, gridOfScene, type Scene } from './frame-of-light.ts';
import { gridOf } from './measurement-of.ts';

/** A lamp close behind a sheet: cos⁴ of the angle, `distance` in widths of the frame. */
const lamp =
  (distance: number, x0 = 0.5, y0 = 0.5) =>
  (x: number, y: number) =>
    0.5 / (1 + ((x - x0) ** 2 + ((y - y0) / 1.5) ** 2) / distance ** 2) ** 2;

/** 3 stops from corner to corner. */
const strongFalloff = (x: number, y: number) => 0.6 * 2 ** (-2.2 * x - 0.8 * y * y);

const hanger = (x: number, y: number) => (Math.abs(x - 0.3) < 0.012 && y < 0.4 ? 0.08 : 0.5);

const specks = (x: number, y: number) =>
  Math.hypot(((x * 9) % 1) - 0.5, ((y * 6) % 1) - 0.5) < 0.02 ? 0.05 : 0.5;

const blank: [string, Scene][] = [
  ['a lamp close behind the sheet, 3.2 stops down in the corners', { light: lamp(0.42) }],
  ['a hot spot a quarter of the frame wide', { light: (x, y) => 0.1 + 0.4 * lamp(0.25, 0.35, 0.4)(x, y) }],
  ['3 stops of falloff', { light: strongFalloff, electrons: 30000 }],
  ['3 stops of falloff in 16 bit without noise', { light: strongFalloff, bits: 16 }],
  ['3 stops of falloff as a JPEG of quality 60', { light: strongFalloff, electrons: 5000, jpegQuality: 60 }],
  ['a flat JPEG of quality 30', { light: () => 0.4, electrons: 2000, jpegQuality: 30 }],
  [
    'a noisy frame 6 stops under',
    { light: (x, y) => strongFalloff(x, y) / 64, electrons: 3000, darkNoise: 0.003 },
  ],
  ['a very noisy frame', { light: strongFalloff, electrons: 300, darkNoise: 0.01 }],
  ['a clipped middle', { light: (x, y) => 4 * lamp(0.5)(x, y), electrons: 30000 }],
  ['specks of dust', { light: specks, electrons: 30000 }],
  ['a hanger', { light: hanger, electrons: 30000 }],
  ['a deep blue lamp', { light: strongFalloff, colour: [0.02, 0.1, 1], electrons: 20000 }],
  [
    'a sheet with an even weave',
    { light: (x, y) => 0.4 * (1 + 0.12 * Math.sin(300 * x) * Math.sin(200 * y)) },
  ],
  ['a small frame', { light: strongFalloff, electrons: 10000, widthPx: 120, heightPx: 80 }],
];

/** Value noise: a random level per square, as irregular as foliage at the given fineness. */
function patchwork(across: number, low: number, high: number, seed: number) {
  const random = seededRandom(seed);
  const down = Math.ceil(across / 1.5);
  const levels = Float64Array.from(
    { length: across * (down + 1) },
    () => low + (high - low) * random.uniform(),
  );
  return (x: number, y: number) => levels[Math.floor(y * down) * across + Math.floor(x * across)]!;
}

/** A glass standing on the sheet: its dark rims, the bright body and the shadow beneath, filling the frame. */
function tumbler(x: number, y: number): number {
  const side = Math.abs(x - 0.5) - (0.36 - 0.08 * y);
  if (y < 0.08 || y > 0.94) return 0.5;
  if (Math.abs(side) < 0.02) return 0.04;
  if (side > 0) return 0.5;
  return 0.3 + 0.15 * Math.sin(40 * x) * Math.sin(22 * y + 9 * x);
}

/** One or two lamps anywhere around the frame, exposed up to 3 stops under, half of them through a JPEG. */
function randomSet(seed: number): Scene {
  const random = seededRandom(seed);
  const lamps = Array.from({ length: 1 + Math.floor(random.uniform() * 2) }, () => ({
    x: -0.3 + 1.6 * random.uniform(),
    y: -0.3 + 1.6 * random.uniform(),
    distance: 0.3 + random.uniform(),
    power: 0.3 + random.uniform(),
  }));
  const level = 0.5 * 2 ** (-3 * random.uniform());
  const sum = (x: number, y: number) =>
    lamps.reduce(
      (light, { x: x0, y: y0, distance, power }) => light + power * lamp(distance, x0, y0)(x, y),
      0.02,
    );
  const brightest = Math.max(
    ...Array.from({ length: 441 }, (_, k) => sum((k % 21) / 20, Math.floor(k / 21) / 20)),
  );
  return {
    light: (x, y) => (level * sum(x, y)) / brightest,
    colour: [1, 0.6 + 0.4 * random.uniform(), 0.3 + 0.7 * random.uniform()],
    widthPx: 600,
    heightPx: 400,
    electrons: 1000 * 10 ** (1.5 * random.uniform()),
    ...(seed % 2 === 0 ? { jpegQuality: 50 + Math.floor(45 * random.uniform()) } : {}),
    seed,
  };
}

/** A real file as 8-bit sRGB codes (16-bit where it has them), averaged into cells. */
async function gridOfPhoto(name: string, region?: FrameRectangle) {
  const deep = name.includes('rgb16');
  const picture = sharp(sharedPhoto(name))
    .removeAlpha()
    .toColourspace(deep ? 'rgb16' : 'srgb');
  const { data, info } = await picture
    .raw(deep ? { depth: 'ushort' } : {})
    .toBuffer({ resolveWithObject: true });
  const codes = deep ? new Uint16Array(data.buffer, data.byteOffset, data.length / 2) : new Uint8Array(data);
  const rgb =
    info.channels === 3
      ? codes
      : Uint8Array.from({ length: codes.length * 3 }, (_, k) => codes[Math.floor(k / 3)]!);
  return gridOfCodes(rgb, info.width, info.height, deep ? 16 : 8, null, region);
}

const pictures: [string, Scene][] = [
  ['a chart of patches', { light: patchwork(6, 0.03, 0.8, 2), electrons: 20000 }],
  [
    'a checker',
    { light: (x, y) => ((Math.floor(x * 12) + Math.floor(y * 8)) % 2 ? 0.7 : 0.08), electrons: 20000 },
  ],
  ['a fine checker', { light: (x, y) => ((Math.floor(x * 384) + Math.floor(y * 256)) % 2 ? 0.7 : 0.08) }],
  ['foliage', { light: patchwork(80, 0.02, 0.7, 3), electrons: 20000 }],
  ['print', { light: patchwork(300, -0.4, 0.8, 4), electrons: 20000 }],
  ['foliage as a JPEG of quality 60', { light: patchwork(80, 0.02, 0.7, 5), jpegQuality: 60 }],
  ['a glass that fills the frame', { light: tumbler, electrons: 20000 }],
];

describe('unsmoothCells(grid)', () => {
  for (const [name, scene] of blank)
    test(`finds ${name} blank`, async () => {
      const { share } = unsmoothCells(await gridOfScene(scene));
      console.log(`measured: ${name}: ${(share * 100).toFixed(2)} % of the cells fit no smooth light`);
      expect(share).toBeLessThan(0.03);
    });

  for (const [name, scene] of pictures)
    test(`finds ${name} not blank`, async () => {
      const { share } = unsmoothCells(await gridOfScene(scene));
      console.log(`measured: ${name}: ${(share * 100).toFixed(1)} % of the cells fit no smooth light`);
      expect(share).toBeGreaterThan(0.5);
    });

  test('says where a thing stands that covers part of the frame', async () => {
    const box = (x: number, y: number) => (Math.abs(x - 0.7) < 0.1 && Math.abs(y - 0.4) < 0.15 ? 0.12 : 0.5);
    const { share, at, cells } = unsmoothCells(await gridOfScene({ light: box, electrons: 20000 }));
    console.log(`measured: a box over 6 % of the frame: ${(share * 100).toFixed(1)} % at ${at?.x}, ${at?.y}`);
    expectWithin(share, 0.06, 0.02);
    expectWithin(at!.x, 0.7, 0.02);
    expectWithin(at!.y, 0.4, 0.02);
    expect(cells.reduce((sum, cell) => sum + cell, 0)).toBeGreaterThan(0);
  });

  test('says how much of the frame a large box covers, in the middle or at a side', () => {
    const errors: number[] = [];
    for (const [width, height] of [
      [0.4, 0.4],
      [0.5, 0.5],
      [0.5, 0.6],
    ] as const) {
      for (const [x0, y0] of [
        [0.5, 0.5],
        [0.3, 0.4],
        [0.5, 0.75],
      ] as const) {
        let covered = 0;
        const inBox = (x: number, y: number) => Math.abs(x - x0) < width / 2 && Math.abs(y - y0) < height / 2;
        const ev = (x: number, y: number) => 0.2 * x - 0.5 * (x - 0.5) ** 2 - (inBox(x, y) ? 2 : 0);
        const grid = gridOf({
          columns: 96,
          rows: 64,
          ev: (x, y) => {
            if (inBox(x, y)) covered++;
            return ev(x, y);
          },
        });
        errors.push(Math.abs(unsmoothCells(grid).share - covered / (96 * 64)));
      }
    }
    console.log(
      `measured: boxes over 16 to 30 % of the frame: share off by at most ${Math.max(...errors).toFixed(3)}`,
    );
    expect(Math.max(...errors)).toBeLessThan(0.02);
  });

  test('finds 25 random sets of one or two lamps blank', async () => {
    let worst = 0;
    for (let seed = 1; seed <= 25; seed++) {
      const { share } = unsmoothCells(await gridOfScene(randomSet(seed)));
      worst = Math.max(worst, share);
    }
    console.log(`measured: 25 random sets: at most ${(worst * 100).toFixed(2)} % of the cells`);
    expect(worst).toBeLessThan(0.03);
  });

  test.skipIf(!sharedPhotosPresent)('finds photographs of scenes not blank', async () => {
    for (const name of ['sixteen-bit/rgb16_photo_1024x684.png', 'orientation/landscape-1.jpg']) {
      const { share } = unsmoothCells(await gridOfPhoto(name));
      console.log(`measured: ${name}: ${(share * 100).toFixed(1)} % of the cells fit no smooth light`);
      expect(share).toBeGreaterThan(0.5);
    }
  });

  test.skipIf(!sharedPhotosPresent)(
    'finds blank fields seen through an imaging fibre no picture',
    async () => {
      const inside = { left: 0.35, top: 0.35, right: 0.65, bottom: 0.65 };
      for (const name of ['bundle_colour_1_background.tif', 'usaf1_background.tif']) {
        const { share } = unsmoothCells(await gridOfPhoto(`flat-and-object/${name}`, inside));
        console.log(
          `measured: ${name}, inside: ${(share * 100).toFixed(1)} % of the cells fit no smooth light`,
        );
        expect(share).toBeLessThan(0.05);
      }
    },
  );

  test('takes under 30 ms on 96 × 64 cells', BUSY, async () => {
    const grid = await gridOfScene({ light: strongFalloff, electrons: 30000 });
    const times = Array.from({ length: 9 }, () => {
      const start = performance.now();
      unsmoothCells(grid);
      return performance.now() - start;
    }).sort((a, b) => a - b);
    console.log(
      `measured: ${grid.columns} × ${grid.rows} cells in ${times[0]!.toFixed(1)} ms (fastest of 9)`,
    );
    expect(times[0]).toBeLessThan(30);
  });
});
