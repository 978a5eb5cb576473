import sharp from 'sharp';
import { describe, expect, test } from 'vitest';
import { EngineError } from '../../src/engine/engine-error.ts';
import { toJpeg, toPng } from '../synthetic/encode.ts';
import { pngFile } from './intake/png-bytes.ts';
import { readBytes } from './known-frames.ts';
import { flat, painted, ramp } from './painted-frames.ts';
import { gapsOf } from './reading-gaps.ts';

describe('readFrame reads without a gap or a crash:', () => {
  const cases: [string, () => Uint8Array | Promise<Uint8Array>][] = [
    ['a flat frame of 8 bits without noise', () => toPng(flat(180))],
    ['a flat frame of 16 bits without noise', () => toPng(flat(40_000, 16))],
    ['a flat JPEG', () => toJpeg(flat(180), { quality: 90, chroma: '4:2:0' })],
    ['a flat coloured frame', () => toPng(painted(96, 64, 8, (_x, _y, c) => [200, 180, 120][c]!))],
    [
      'a frame of one single primary',
      () => toPng(painted(96, 64, 16, (_x, _y, c) => (c === 2 ? 40_000 : 200))),
    ],
    ['a flat frame of 16 × 16 pixels', () => toPng(flat(128, 8, 16, 16))],
    ['a frame of 17 × 5000 pixels', () => toPng(painted(17, 5000, 8, (_x, y) => ramp(y, 5000)))],
    ['a frame of 5000 × 17 pixels', () => toPng(painted(5000, 17, 8, (x) => ramp(x, 5000)))],
    [
      'a frame of 30 × 2000 pixels of 16 bits',
      () => toPng(painted(30, 2000, 16, (_x, y) => 257 * ramp(y, 2000))),
    ],
    [
      'a frame of 24 × 24 pixels, three cells either way',
      () => toPng(painted(24, 24, 8, (x, y) => ramp(x + y, 48))),
    ],
    [
      'a grey PNG of 8 bits',
      () =>
        pngFile({
          widthPx: 96,
          heightPx: 64,
          depth: 8,
          colourType: 0,
          samples: Array.from({ length: 96 * 64 }, (_, i) => ramp(i % 96, 96)),
        }),
    ],
    [
      'a grey PNG of 16 bits',
      () =>
        pngFile({
          widthPx: 96,
          heightPx: 64,
          depth: 16,
          colourType: 0,
          samples: Array.from({ length: 96 * 64 }, (_, i) => 200 * ramp(i % 96, 96)),
        }),
    ],
    [
      'a grey PNG with alpha',
      () =>
        pngFile({
          widthPx: 96,
          heightPx: 64,
          depth: 8,
          colourType: 4,
          samples: Array.from({ length: 96 * 64 * 2 }, (_, i) => (i % 2 ? 40 : ramp((i >> 1) % 96, 96))),
        }),
    ],
    [
      'a PNG with alpha',
      () =>
        pngFile({
          widthPx: 96,
          heightPx: 64,
          depth: 8,
          colourType: 6,
          samples: Array.from({ length: 96 * 64 * 4 }, (_, i) => (i % 4 === 3 ? 0 : ramp((i >> 2) % 96, 96))),
        }),
    ],
    [
      'a PNG of 16 bits with alpha',
      () =>
        pngFile({
          widthPx: 96,
          heightPx: 64,
          depth: 16,
          colourType: 6,
          samples: Array.from({ length: 96 * 64 * 4 }, (_, i) =>
            i % 4 === 3 ? 9 : 200 * ramp((i >> 2) % 96, 96),
          ),
        }),
    ],
    [
      'a grey JPEG',
      async () =>
        new Uint8Array(
          await sharp(Buffer.alloc(96 * 64, 150), { raw: { width: 96, height: 64, channels: 1 } })
            .jpeg()
            .toBuffer(),
        ),
    ],
    [
      'a frame whose lower half is white',
      () => toPng(painted(96, 64, 8, (x, y) => (y < 32 ? ramp(x, 96) : 255))),
    ],
  ];

  test.each(cases)('%s', async (_what, file) => {
    const { reading } = await readBytes(await file());
    expect(gapsOf(reading)).toEqual([]);
    const { falloff } = reading;
    expect(falloff.spreadEv).toBeGreaterThanOrEqual(0);
    expect(falloff.evMap.some((ev) => ev === 0)).toBe(true);
  });
});

describe('readFrame answers with a Reading or a code of the contract, never with a crash:', () => {
  const codes = ['no-light', 'all-clipped', 'not-blank', 'too-small'];
  const cases: [string, () => Uint8Array][] = [
    [
      'one lit cell in a black frame',
      () => toPng(painted(96, 64, 8, (x, y) => (x >= 48 && x < 56 && y >= 32 && y < 40 ? 180 : 0))),
    ],
    [
      'one dark cell in a white frame',
      () => toPng(painted(96, 64, 8, (x, y) => (x >= 48 && x < 56 && y >= 32 && y < 40 ? 180 : 255))),
    ],
    ['a frame whose left half is black', () => toPng(painted(96, 64, 8, (x) => (x < 48 ? 0 : 180)))],
    [
      'a frame whose left half is black, 16 bits',
      () => toPng(painted(96, 64, 16, (x) => (x < 48 ? 0 : 40_000))),
    ],
    ['two lit rows of cells', () => toPng(painted(96, 64, 8, (_x, y) => (y < 16 ? 180 : 0)))],
    ['one channel black all over', () => toPng(painted(96, 64, 8, (_x, _y, c) => (c === 0 ? 0 : 180)))],
    [
      'one channel clipped all over',
      () => toPng(painted(96, 64, 8, (x, _y, c) => (c === 0 ? 255 : 120 + (x >> 2)))),
    ],
    ['a steep slope over 16 × 16 pixels', () => toPng(painted(16, 16, 8, (x) => ramp(x, 16)))],
    ['code 1 all over', () => toPng(flat(1))],
    ['code 1 of 65 535 all over', () => toPng(flat(1, 16))],
    ['code 254 all over', () => toPng(flat(254))],
    ['noise of all codes', () => pngFile({ widthPx: 96, heightPx: 64, depth: 8, colourType: 2 })],
    ['a checkerboard of pixels', () => toPng(painted(96, 64, 8, (x, y) => ((x + y) % 2 ? 60 : 220)))],
    [
      'a checkerboard of cells',
      () => toPng(painted(96, 64, 8, (x, y) => (((x >> 3) + (y >> 3)) % 2 ? 60 : 220))),
    ],
    [
      'alternating black and white pixels',
      () => toPng(painted(96, 64, 8, (x, y) => ((x + y) % 2 ? 0 : 255))),
    ],
  ];

  test.each(cases)('%s', async (what, file) => {
    const outcome = await readBytes(file()).then(
      ({ reading }) => gapsOf(reading).join('; ') || 'a whole reading',
      (error: unknown) => {
        expect(error).toBeInstanceOf(EngineError);
        expect(codes).toContain((error as EngineError).code);
        return (error as EngineError).code;
      },
    );
    console.log(`measured: ${what}: ${outcome}`);
    expect([...codes, 'a whole reading']).toContain(outcome);
  });
});

test('readFrame does not call a frame even of which half is black', async () => {
  for (const bits of [8, 16] as const) {
    const black = painted(96, 64, bits, (x) => (x < 48 ? 0 : 180 * (bits === 8 ? 1 : 257)));
    const { falloff, verdict, gradient } = (await readBytes(toPng(black))).reading;
    expect(verdict.even).toBe('no');
    expect(falloff.spreadEv).toBeGreaterThan(5);
    expect(falloff.spreadEv).toBeLessThan(24); // 16 bits and half a code
    expect(gradient.angleDeg).toBe(0);
  }
});
