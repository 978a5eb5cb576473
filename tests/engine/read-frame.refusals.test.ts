import { describe, expect, test } from 'vitest';
import { EngineError } from '../../src/engine/engine-error.ts';
import { seededRandom } from '../../src/engine/numeric/seeded-random.ts';
import { toJpeg, toPng } from '../synthetic/encode.ts';
import { randomField } from '../synthetic/known-field.ts';
import { type RenderedFrame, renderFrame } from '../synthetic/render-frame.ts';
import { chunk, headerChunk, join, noiseSamples, SIGNATURE } from './intake/png-bytes.ts';
import { readBytes } from './known-frames.ts';
import { flat, painted } from './painted-frames.ts';

const small = (bits: 8 | 16 = 8) =>
  renderFrame(randomField(2, { spreadEv: 0.8 }).field, {
    widthPx: 180,
    heightPx: 120,
    bits,
    curve: 'srgb',
    electronsAtFull: 30_000,
    seed: 2,
  });

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
      [/text/, /JPEG, PNG, TIFF, raw, WebP or AVIF file/, /choose/],
    ],
    [
      'an empty file',
      'not-an-image',
      () => new Uint8Array(0),
      [/empty/, /JPEG, PNG, TIFF, raw, WebP or AVIF file/, /copy/],
    ],
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
      [/no picture/, /JPEG, PNG, TIFF, raw, WebP or AVIF file/, /choose/],
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

test('readFrame says of a frame that clips here and there all over that it is clipped', async () => {
  const frame = painted(96, 64, 8, (x, y) => ((x * 7 + y * 3) % 8 === 0 ? 255 : 250));
  expect((await refusal(toPng(frame))).code).toBe('all-clipped');
});

test('readFrame reads a PNG that is named .jpg, and a JPEG that is named .png', async () => {
  const [png, jpeg] = [toPng(small()), await toJpeg(small(), { quality: 95, chroma: '4:4:4' })];
  const asJpeg = (await readBytes(png, 'blank.jpg')).reading;
  const asPng = (await readBytes(jpeg, 'blank.png')).reading;
  expect([asJpeg.frame.name, asPng.frame.name]).toEqual(['blank.jpg', 'blank.png']);
  expect(Math.abs(asJpeg.falloff.spreadEv - asPng.falloff.spreadEv)).toBeLessThan(0.02);
});
