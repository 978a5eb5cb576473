import { describe, expect, test } from 'vitest';
import { EngineError } from '../../../src/engine/engine-error.ts';
import { decodeImage } from '../../../src/engine/intake/decode-image.ts';
import { seededRandom } from '../../../src/engine/numeric/seeded-random.ts';
import { nodePlatform } from '../../node-platform.ts';
import { sharedPhoto, sharedPhotoNames, sharedPhotosPresent } from '../../shared-photos.ts';
import { dngOf } from '../../synthetic/bayer-mosaic.ts';
import { dngBytes } from '../../synthetic/dng-bytes.ts';
import { rejectionOf } from './rejection-code.ts';

const SENSOR = {
  widthPx: 640,
  heightPx: 480,
  order: 'RGGB',
  bits: 16,
  black: { rows: 1, columns: 1, levels: [512] },
  white: 60_000,
  seed: 1,
} as const;
const whole = dngOf(() => [0.4, 0.4, 0.4], SENSOR);

/** The outcome and how long it took. */
async function timed<T>(work: Promise<T>): Promise<[T, number]> {
  const start = performance.now();
  return [await work, performance.now() - start];
}

describe('decodeRawFile', () => {
  test.skipIf(!sharedPhotosPresent)('says of real files cut short that they are', async () => {
    for (const name of sharedPhotoNames('raw-cut-short')) {
      const [error, ms] = await timed(rejectionOf(sharedPhoto(name)));
      console.log(`measured: ${name}: ${error.code} after ${ms.toFixed(0)} ms: ${error.message}`);
      expect([name, error.code]).toEqual([name, 'unreadable-file']);
      expect(error.message).toMatch(/raw file is cut short: .*Copy it from the card again\.$/);
      expect(ms).toBeLessThan(2000);
    }
  });

  test('answers a DNG cut anywhere within 2 s, by an error or by a picture', async () => {
    for (const share of [0.0002, 0.0008, 0.002, 0.1, 0.5, 0.9, 0.9999]) {
      const cut = whole.slice(0, Math.round(whole.length * share));
      const [outcome, ms] = await timed(decodeImage(cut, nodePlatform).catch((error) => error));
      expect(ms).toBeLessThan(2000);
      console.log(`measured: cut to ${100 * share} %: ${outcome.code ?? 'read'} after ${ms.toFixed(0)} ms`);
      expect([outcome.code, outcome.detail?.format], `${share}`).toEqual([
        'unreadable-file',
        expect.anything(),
      ]);
    }
  });

  test('answers bent DNGs within 2 s, by a picture or by a code', { timeout: 60_000 }, async () => {
    const small = dngOf(() => [0.4, 0.4, 0.4], { ...SENSOR, widthPx: 96, heightPx: 64 });
    const random = seededRandom(11);
    const outcomes = new Map<string, number>();
    let slowest = 0;
    for (let i = 0; i < 40; i++) {
      const bent = small.slice();
      // its directory and what that points to lie within the first half kilobyte
      for (let k = 0; k < 1 + (i % 4); k++)
        bent[4 + Math.floor(random.uniform() * 560)] = Math.floor(random.uniform() * 256);
      const [outcome, ms] = await timed(decodeImage(bent, nodePlatform).catch((error) => error));
      slowest = Math.max(slowest, ms);
      const kind = outcome instanceof EngineError ? outcome.code : outcome.samples ? 'image' : 'no code';
      outcomes.set(kind, (outcomes.get(kind) ?? 0) + 1);
    }
    console.log(`measured: bent DNGs: ${JSON.stringify([...outcomes])}, slowest ${slowest.toFixed(0)} ms`);
    expect(outcomes.get('no code')).toBeUndefined();
    expect(slowest).toBeLessThan(2000);
  });

  test('calls a headerless dump of cells no picture', async () => {
    const dump = new Uint8Array(400_000).map((_, i) => (i * 2654435761) >>> 24);
    dump.set([0, 1, 0, 2]);
    const error = await rejectionOf(dump);
    expect([error.code, error.message]).toEqual(['not-an-image', expect.stringMatching(/raw.* was needed/)]);
  });

  test('refuses an absurd size by the header alone', async () => {
    const bytes = dngOf(() => [0.4, 0.4, 0.4], { ...SENSOR, widthPx: 64, heightPx: 48 });
    const view = new DataView(bytes.buffer);
    for (let at = 10; at < 400; at += 12) {
      const tag = view.getUint16(at, true);
      if (tag === 256 || tag === 257) view.setUint32(at + 8, 60_000, true);
    }
    const [error, ms] = await timed(rejectionOf(bytes));
    console.log(`measured: 60 000 × 60 000 claimed: ${error.code} after ${ms.toFixed(0)} ms`);
    expect(['too-large', 'unreadable-file']).toContain(error.code);
    expect(ms).toBeLessThan(2000);
  });

  test('refuses a white that does not lie above black', async () => {
    for (const order of ['RGGB', null])
      expect(
        await rejectionOf(
          dngBytes({
            ...{ cells: new Uint16Array(64 * 64 * (order ? 1 : 3)).fill(700), widthPx: 64, heightPx: 64 },
            ...{ order, bits: 16, white: 512, black: { rows: 1, columns: 1, levels: [600] } },
          }),
        ),
      ).toMatchObject({
        code: 'unreadable-file',
        message: expect.stringMatching(/512 as white and 600 as black/),
      });
  });

  test('says so where no decoder is to be had', async () => {
    const { openRaw: _none, ...without } = nodePlatform;
    const error = await decodeImage(whole, without).catch((thrown) => thrown);
    expect([error.code, error.detail.format]).toEqual(['unsupported-file', 'raw']);
    expect(error.message).toMatch(/can’t be read here\. Export it/);
  });
});
