import { expect, test } from 'vitest';
import { seededRandom } from '../../src/engine/numeric/seeded-random.ts';
import { expectWithin } from '../expect-within.ts';
import { codeRounder, encodeSrgb } from './code-thresholds.ts';
import { FIELD_FAMILIES } from './field-families.ts';
import { fieldRows } from './field-rows.ts';
import { randomField } from './known-field.ts';
import { renderFrame } from './render-frame.ts';
import { cheapNormal, poissonElectrons } from './shot-noise.ts';

test('codeRounder(bits, srgb) gives the nearest code of the published curve', () => {
  const random = seededRandom(4);
  for (const bits of [8, 16] as const) {
    const top = 2 ** bits - 1;
    const codeOf = codeRounder(bits, 'srgb');
    for (let i = 0; i < 50_000; i++) {
      const light = random.uniform() ** 3;
      const encoded = encodeSrgb(light) * top;
      expect(Math.abs(codeOf(light) - encoded) <= 0.5 + 1e-4, `light ${light} at ${bits} bits`).toBe(true);
    }
    expect([codeOf(0), codeOf(-1), codeOf(1), codeOf(7)]).toEqual([0, 0, top, top]);
    expectWithin(codeOf(0.18) / top, 0.4613561, 0.5 / top); // encode(0.18), IEC 61966-2-1 curve
  }
});

test('fieldRows(field) equals the field at pixel centres to 1e-6 EV in every family', () => {
  const [widthPx, heightPx] = [600, 400];
  let largestEv = 0;
  for (const family of FIELD_FAMILIES) {
    const { field } = randomField(21, { family, spreadEv: 3 });
    const fill = fieldRows(field, widthPx, heightPx);
    const row = new Float64Array(widthPx * 3);
    for (let line = 0; line < heightPx; line += 7) {
      const y = (line + 0.5) / heightPx;
      fill(row, y);
      for (let column = 0; column < widthPx; column++) {
        const light = field((column + 0.5) / widthPx, y);
        for (let channel = 0; channel < 3; channel++) {
          const ev = Math.abs(Math.log2(row[column * 3 + channel]! / light[channel]!));
          largestEv = Math.max(largestEv, ev);
        }
      }
    }
  }
  console.log(`measured: rendered rows differ from the field by at most ${largestEv.toExponential(1)} EV`);
  expect(largestEv).toBeLessThan(2e-6);
});

test('poissonElectrons(mean) has the mean and variance of a Poisson number', () => {
  const random = seededRandom(9);
  const normal = cheapNormal(random);
  const draws = 400_000;
  for (const mean of [0.7, 12, 49, 51, 400, 20_000]) {
    let [sum, squares] = [0, 0];
    for (let i = 0; i < draws; i++) {
      const off = poissonElectrons(mean, normal, random) - mean;
      sum += off;
      squares += off * off;
    }
    expectWithin(sum / draws, 0, 4 * Math.sqrt(mean / draws));
    // standard error of a variance: kurtosis 3 + 1/mean
    expectWithin(squares / draws / mean, 1, 4 * Math.sqrt((2 + 1 / mean) / draws) + 1 / 12 / mean);
  }
});

test('renderFrame(field) scatters pixels by the shot noise of its well', () => {
  const flat = () => [0.5, 0.5, 0.5] as const;
  const options = { widthPx: 300, heightPx: 200, bits: 16, curve: 'linear', seed: 2 } as const;
  const frame = renderFrame(flat, { ...options, electronsAtFull: 30_000, readNoiseElectrons: 20 });
  const samples = Float64Array.from(frame.samples);
  const mean = samples.reduce((sum, code) => sum + code, 0) / samples.length;
  const variance = samples.reduce((sum, code) => sum + (code - mean) ** 2, 0) / samples.length;
  const electronsPerCode = 30_000 / 65_535;
  expectWithin(mean / 65_535, 0.5, 0.0001);
  expectWithin(Math.sqrt(variance) * electronsPerCode, Math.sqrt(15_000 + 400), 1);
});

test('renderFrame(field, seed) is the same frame every time and another with another seed', () => {
  const { field } = randomField(3);
  const options = { widthPx: 40, heightPx: 30, bits: 8, curve: 'srgb', electronsAtFull: 900 } as const;
  const first = renderFrame(field, { ...options, seed: 5 });
  expect(renderFrame(field, { ...options, seed: 5 }).samples).toEqual(first.samples);
  expect(renderFrame(field, { ...options, seed: 6 }).samples).not.toEqual(first.samples);
});

test('renderFrame(field, { specks }) darkens the pixels whose centres they cover and no other', () => {
  const specks = [{ shape: 'box', x: 0.5, y: 0.5, widthPx: 4, heightPx: 2, transmission: 0.25 }] as const;
  const { samples } = renderFrame(() => [0.8, 0.8, 0.8], {
    widthPx: 20,
    heightPx: 10,
    bits: 16,
    curve: 'linear',
    electronsAtFull: null,
    seed: 0,
    specks,
  });
  const dark = [...samples].filter((code) => code === Math.round(0.2 * 65_535)).length;
  const light = [...samples].filter((code) => code === Math.round(0.8 * 65_535)).length;
  expect([dark, light]).toEqual([4 * 2 * 3, (200 - 8) * 3]);
});

test('renderFrame(field) at 1200 × 800 is quick enough to render by the thousand', () => {
  const { field } = randomField(7, { family: 'hot-spot' });
  for (const bits of [8, 16] as const) {
    const times = [0, 1, 2, 3, 4].map((seed) => {
      const start = performance.now();
      renderFrame(field, {
        widthPx: 1200,
        heightPx: 800,
        bits,
        curve: 'srgb',
        electronsAtFull: 30_000,
        seed,
      });
      return performance.now() - start;
    });
    const median = times.sort((a, b) => a - b)[2]!;
    console.log(`measured: ${median.toFixed(0)} ms for 1200 × 800 at ${bits} bits with shot noise`);
    expect(median).toBeLessThan(2000);
  }
});

test('randomField(seed) spreads its draws from 0.05 to 3 EV with peaks from 0.5 to 0.93', () => {
  const spreads = Array.from({ length: 400 }, (_, seed) => randomField(seed).spreadEv).sort((a, b) => a - b);
  expect(spreads[0]! < 0.07 && spreads[399]! > 2.5).toBe(true);
  for (let seed = 0; seed < 40; seed++) {
    const { field } = randomField(seed);
    let peak = 0;
    for (let i = 0; i <= 64; i++)
      for (let j = 0; j <= 64; j++) peak = Math.max(peak, ...field(i / 64, j / 64));
    expect(peak > 0.499 && peak < 0.9301, `peak ${peak} of seed ${seed}`).toBe(true);
  }
});
