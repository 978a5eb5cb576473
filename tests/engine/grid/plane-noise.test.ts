import { expect, test } from 'vitest';
import type { LinearFrame } from '../../../src/engine/frame/linear-frame.ts';
import { planeNoise } from '../../../src/engine/grid/plane-noise.ts';
import { seededRandom } from '../../../src/engine/numeric/seeded-random.ts';

/** A sloping picture whose R, G and B have independent noise of a standard deviation, with or without specks. */
function noisyFrame(sigmaCodes: number, speckShare: number): LinearFrame {
  const [widthPx, heightPx] = [600, 400];
  const random = seededRandom(5);
  const samples = new Uint8Array(widthPx * heightPx * 4);
  for (let i = 0; i < samples.length; i++) {
    const isSpeck = random.uniform() < speckShare;
    samples[i] = isSpeck ? 20 : Math.round(120 + ((i / 4) % widthPx) * 0.1 + sigmaCodes * random.normal());
  }
  const steps = { lumaCodes: 0.25, chromaCodes: 0.25, chromaBlockPx: 8 };
  return { widthPx, heightPx, channels: 4, samples, jpegDcSteps: steps } as unknown as LinearFrame;
}

test.each([0.8, 2, 5])(
  'planeNoise(frame) recovers luma’s and chroma’s variance, %f codes of noise',
  (sigma) => {
    const [luma, cb, cr] = planeNoise(noisyFrame(sigma, 0))!;
    const channel = sigma ** 2 + 1 / 12;
    const expected = [
      0.299 ** 2 + 0.587 ** 2 + 0.114 ** 2,
      (0.299 ** 2 + 0.587 ** 2 + 0.886 ** 2) / 1.772 ** 2,
      (0.701 ** 2 + 0.587 ** 2 + 0.114 ** 2) / 1.402 ** 2,
    ].map((share) => share * channel);
    // the largest twentieth of the differences is left out: of a normal distribution's variance 0.76 remains
    [luma, cb, cr].forEach((variance, p) => {
      expect(variance / expected[p]!).toBeGreaterThan(0.7);
      expect(variance / expected[p]!).toBeLessThan(0.83);
    });
  },
);

test('planeNoise(frame) does not take specks for noise, and sees none in plateaux', () => {
  const [clean] = planeNoise(noisyFrame(0.8, 0))!;
  const [specked] = planeNoise(noisyFrame(0.8, 0.005))!;
  expect(specked).toBeLessThan(1.6 * clean);
  expect(planeNoise(noisyFrame(0, 0))!.every((variance) => variance < 0.15)).toBe(true);
});
