import { expect, test } from 'vitest';
import { fastFourier } from '../../../src/engine/numeric/fast-fourier.ts';
import { seededRandom } from '../../../src/engine/numeric/seeded-random.ts';
import { expectWithin } from '../../expect-within.ts';

test.each([1, 2, 8, 64])('fastFourier of %i values equals the sum it stands for', (n) => {
  const random = seededRandom(n);
  const re = Float64Array.from({ length: n }, () => random.normal());
  const im = Float64Array.from({ length: n }, () => random.normal());
  const [gotRe, gotIm] = [re.slice(), im.slice()];
  fastFourier(gotRe, gotIm);
  for (let k = 0; k < n; k++) {
    let [sumRe, sumIm] = [0, 0];
    for (let i = 0; i < n; i++) {
      const angle = (-2 * Math.PI * k * i) / n;
      sumRe += re[i]! * Math.cos(angle) - im[i]! * Math.sin(angle);
      sumIm += re[i]! * Math.sin(angle) + im[i]! * Math.cos(angle);
    }
    expectWithin(gotRe[k]!, sumRe, 1e-10);
    expectWithin(gotIm[k]!, sumIm, 1e-10);
  }
});

test('fastFourier refuses lengths that are no power of two, and parts of different length', () => {
  for (const [re, im] of [
    [0, 0],
    [6, 6],
    [8, 4],
  ] as const)
    expect(() => fastFourier(new Float64Array(re), new Float64Array(im))).toThrow(RangeError);
});
