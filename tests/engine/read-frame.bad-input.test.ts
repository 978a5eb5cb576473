import sharp from 'sharp';
import { describe, expect, test } from 'vitest';
import { EngineError } from '../../src/engine/engine-error.ts';
import { seededRandom } from '../../src/engine/numeric/seeded-random.ts';
import { toJpeg, toPng } from '../synthetic/encode.ts';
import { randomField } from '../synthetic/known-field.ts';
import { type RenderedFrame, renderFrame } from '../synthetic/render-frame.ts';
import { chunk, headerChunk, join, noiseSamples, pngFile, SIGNATURE } from './intake/png-bytes.ts';
import { readBytes } from './known-frames.ts';
import { gapsOf } from './reading-gaps.ts';

const small = (bits: 8 | 16 = 8) =>
  renderFrame(randomField(2, { spreadEv: 0.8 }).field, {
    widthPx: 180,
    heightPx: 120,
    bits,
    curve: 'srgb',
    electronsAtFull: 30_000,
    seed: 2,
  });

/** A frame whose every sample comes from its pixel. */
function painted(
  widthPx: number,
  heightPx: number,
  bits: 8 | 16,
  code: (xPx: number, yPx: number, channel: number) => number,
): RenderedFrame {
  const samples = new (bits === 8 ? Uint8Array : Uint16Array)(widthPx * heightPx * 3);
  for (let at = 0; at < samples.length; at++) {
    const pixel = Math.floor(at / 3);
    samples[at] = code(pixel % widthPx, Math.floor(pixel / widthPx), at % 3);
  }
  return { widthPx, heightPx, bits, samples };
}

const flat = (code: number, bits: 8 | 16 = 8, widthPx = 96, heightPx = 64) =>
  painted(widthPx, heightPx, bits, () => code);

const ramp = (x: number, width: number) => 120 + Math.round((60 * x) / width);

/** Something with edges everywhere: discs of every size and grey before a lit background. */
function subject(): RenderedFrame {
  const random = seededRandom(6);
  const discs = Array.from({ length: 900 }, () => ({
    x: 360 * random.uniform(),
    y: 240 * random.uniform(),
    radius: 2 + 9 * random.uniform(),
    code: Math.round(30 + 200 * random.uniform()),
  }));
  return painted(360, 240, 8, (x, y) => {
    const over = discs.find((disc) => Math.hypot(x - disc.x, y - disc.y) < disc.radius);
    return over?.code ?? 200;
  });
}

async function refusal(bytes: Uint8Array, name?: string): Promise<EngineError> {
  const failed = await readBytes(bytes, name).then(
    ({ reading }) => `read as ${reading.falloff.spreadEv} EV`,
    (error: unknown) => error,
  );
  expect(failed).toBeInstanceOf(EngineError);
  return failed as EngineError;
}

describe('readFrame refuses, saying what was found, what was needed and what to do:', () => {
  const cases: [string, string, () => Uint8Array | Promise<Uint8Array>, RegExp[]][] = [
    [
      'a text file',
      'not-an-image',
      () => new TextEncoder().encode('Order 12: forty blown tumblers, clear.'),
      [/text/, /JPEG or PNG/, /choose/],
    ],
    ['an empty file', 'not-an-image', () => new Uint8Array(0), [/empty/, /JPEG or PNG/, /copy/]],
    [
      'a truncated JPEG',
      'unreadable-file',
      async () => {
        const bytes = await toJpeg(small(), { quality: 90, chroma: '4:2:0' });
        return bytes.subarray(0, bytes.length >> 1);
      },
      [/JPEG/, /damaged|cut short|ends/, /copy/],
    ],
    [
      'a truncated PNG',
      'unreadable-file',
      () => {
        const bytes = toPng(small());
        return bytes.subarray(0, bytes.length >> 1);
      },
      [/PNG|file/, /damaged|cut short|ends|incomplete/, /copy|export/],
    ],
    ['a picture with a subject', 'not-blank', () => toPng(subject()), [/\d+ %/, /subject/, /empty/]],
    ['an all-black picture of 8 bits', 'no-light', () => toPng(flat(0)), [/black/, /light/, /Check/]],
    ['an all-black picture of 16 bits', 'no-light', () => toPng(flat(0, 16)), [/black/, /light/, /Check/]],
    [
      'an all-black JPEG',
      'no-light',
      () => toJpeg(flat(0), { quality: 90, chroma: '4:2:0' }),
      [/black/, /light/, /Check/],
    ],
    ['an all-white picture', 'all-clipped', () => toPng(flat(255)), [/clipped/, /stop below/, /again/]],
    [
      'an all-white picture of 16 bits',
      'all-clipped',
      () => toPng(flat(65_535, 16)),
      [/clipped/, /stop below/, /again/],
    ],
    [
      'an all-white JPEG',
      'all-clipped',
      () => toJpeg(flat(255), { quality: 90, chroma: '4:4:4' }),
      [/clipped/, /stop below/, /again/],
    ],
    [
      'a picture of 3 × 3 pixels',
      'too-small',
      () => toPng(flat(128, 8, 3, 3)),
      [/3 × 3/, /16/, /use|Choose/],
    ],
    ['a picture of 15 × 4000 pixels', 'too-small', () => toPng(flat(128, 8, 15, 4000)), [/15 × 4000/, /16/]],
    [
      'a PNG that claims 60 000 × 60 000 pixels',
      'too-large',
      () =>
        join(
          SIGNATURE,
          headerChunk(60_000, 60_000, 8, 2),
          chunk('IDAT', new Uint8Array(9)),
          chunk('IEND', new Uint8Array(0)),
        ),
      [/60000 × 60000/, /200/, /export it smaller/],
    ],
    [
      'bytes of no format',
      'not-an-image',
      () => Uint8Array.from(noiseSamples(4000, 8)),
      [/no picture/, /JPEG or PNG/, /choose/],
    ],
  ];

  test.each(cases)('%s: %s', async (_what, code, file, says) => {
    const error = await refusal(await file());
    expect(error.code, error.message).toBe(code);
    for (const words of says) expect(error.message).toMatch(new RegExp(words, 'i'));
    expect(error.message, 'whole sentences').toMatch(/^[A-Z0-9].*\.$/s);
    expect(error.message, 'a part that is to be done begins anew').not.toMatch(
      /[:;] (copy|export|choose|use) /,
    );
    expect(error.message).not.toMatch(/NaN|undefined|\[object/);
  });
});

test('readFrame reads a PNG that is named .jpg, and a JPEG that is named .png', async () => {
  const [png, jpeg] = [toPng(small()), await toJpeg(small(), { quality: 95, chroma: '4:4:4' })];
  const asJpeg = (await readBytes(png, 'blank.jpg')).reading;
  const asPng = (await readBytes(jpeg, 'blank.png')).reading;
  expect([asJpeg.frame.name, asPng.frame.name]).toEqual(['blank.jpg', 'blank.png']);
  expect(Math.abs(asJpeg.falloff.spreadEv - asPng.falloff.spreadEv)).toBeLessThan(0.02);
});

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

test('readFrame says of a frame that clips here and there all over that it is clipped', async () => {
  const frame = painted(96, 64, 8, (x, y) => ((x * 7 + y * 3) % 8 === 0 ? 255 : 250));
  expect((await refusal(toPng(frame))).code).toBe('all-clipped');
});
