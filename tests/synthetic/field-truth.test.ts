import { readFileSync } from 'node:fs';
import Color from 'colorjs.io';
import { expect, test } from 'vitest';
import { expectWithin } from '../expect-within.ts';
import { locusPlace, uvPrimeOfXyz, xyzOfSrgbLight } from './colour-truth.ts';
import { fieldTruth } from './field-truth.ts';
import { type KnownField, randomField } from './known-field.ts';

const layout = { columns: 48, rows: 32, widthPx: 600, heightPx: 400 };

test('fieldTruth(plane in log light) gives back the slope, angle and ends it was made with', () => {
  // 1.2 EV per frame width to the right and 0.5 EV per frame height down, light 2^(…)
  const field: KnownField = (x, y) => {
    const light = 0.2 * 2 ** (1.2 * x + 0.5 * y);
    return [light, light, light];
  };
  const { gradient, cast, spreadDeltaUv, brightestAt, darkestAt, spreadEv } = fieldTruth(field, layout);
  expectWithin(gradient.ev, 1.7, 1e-6);
  expectWithin(gradient.angleDeg, (Math.atan2(0.5 * 1.5, 1.2) * 180) / Math.PI, 1e-5);
  // the ends lie on the line through the middle at that angle, where the plane is 0.85 EV up and down
  expectWithin(1.2 * (gradient.to.x - 0.5) + 0.5 * (gradient.to.y - 0.5), 0.85, 1e-6);
  expectWithin(gradient.from.x + gradient.to.x, 1, 1e-12);
  expectWithin(gradient.explains, 1, 1e-9);
  expectWithin(gradient.mired, 0, 1e-6);
  expectWithin(cast.deltaUv, 0, 1e-12);
  expectWithin(spreadDeltaUv, 0, 1e-12);
  expect([brightestAt.x > 0.98, darkestAt.x < 0.02]).toEqual([true, true]);
  // from the centre of one corner cell to that of the other; smoothing keeps a plane but for its curvature in light
  expectWithin(spreadEv, 1.7 - 1.2 / 48 - 0.5 / 32, 0.0005);
});

test('fieldTruth(field) is the same by area and by the centres of many pixels', () => {
  let largest = 0;
  for (let seed = 0; seed < 8; seed++) {
    const { field } = randomField(seed);
    const options = { columns: 24, rows: 16, widthPx: 960, heightPx: 640 };
    const byArea = fieldTruth(field, options);
    const byPixels = fieldTruth(field, { ...options, byPixels: true });
    byArea.evMap.forEach((ev, i) => {
      largest = Math.max(largest, Math.abs(ev - byPixels.evMap[i]!));
    });
  }
  console.log(
    `measured: cell means by area and by 40 × 40 pixel centres differ by ${largest.toExponential(1)} EV`,
  );
  expect(largest).toBeLessThan(1e-4);
});

test('xyzOfSrgbLight(light) and uvPrimeOfXyz(xyz) agree with a general colour library', () => {
  for (const rgb of [
    [1, 1, 1],
    [0.9, 0.4, 0.2],
    [0.1, 0.5, 0.7],
  ] as const) {
    const colour = new Color('srgb-linear', [...rgb]);
    const referee = colour.to('xyz-d65').coords.map(Number);
    const xyz = xyzOfSrgbLight(rgb);
    xyz.forEach((value, i) => {
      expectWithin(value, referee[i]!, 2e-5);
    });
    const [x, y, z] = referee as [number, number, number];
    const [u, v] = uvPrimeOfXyz(xyz);
    expectWithin(u, (4 * x) / (x + 15 * y + 3 * z), 1e-5);
    expectWithin(v, (9 * y) / (x + 15 * y + 3 * z), 1e-5);
  }
});

test('locusPlace(u′, v′) finds temperature and Duv of published points by the Planckian locus', () => {
  // T. Ohno's method as printed in a public library's regression tests, and Planck's law with normal offsets
  let [worstMired, worstDuv, rows] = [0, 0, 0];
  const table = readFileSync(new URL('../published/cct-duv-check.csv', import.meta.url), 'utf8');
  for (const line of table.trim().split('\n').slice(1)) {
    const [u, v, kelvin, duv, method] = line.split(',');
    // Robertson's own test points follow his isotemperature lines, not the nearest point
    if (method === 'robertson1968' || Number(kelvin) < 2000 || Math.abs(Number(duv)) > 0.03) continue;
    const place = locusPlace(Number(u), 1.5 * Number(v));
    worstMired = Math.max(worstMired, Math.abs(place.mired - 1e6 / Number(kelvin)));
    worstDuv = Math.max(worstDuv, Math.abs(place.duv - Number(duv)));
    rows++;
  }
  console.log(
    `measured: ${rows} published points, largest error ${worstMired.toFixed(3)} mired, Duv ${worstDuv.toExponential(1)}`,
  );
  expect(rows).toBeGreaterThan(60);
  expect(worstMired).toBeLessThan(0.2);
  expect(worstDuv).toBeLessThan(2e-5);
});

test('locusPlace(u′, v′) gives the published correlated temperatures of illuminants', () => {
  let worst = 0;
  const table = readFileSync(new URL('../published/illuminants-xy-cct.csv', import.meta.url), 'utf8');
  for (const line of table.trim().split('\n').slice(1)) {
    const [, , , u, v, kelvin, duv] = line.split(',').map(Number);
    if (!(kelvin! > 1700) || Math.abs(duv!) > 0.03) continue;
    const place = locusPlace(u!, v!);
    worst = Math.max(worst, Math.abs(place.mired - 1e6 / kelvin!));
    expectWithin(place.duv, duv!, 3e-5);
  }
  console.log(`measured: illuminants' correlated colour temperature within ${worst.toFixed(3)} mired`);
  expect(worst).toBeLessThan(0.2);
});
