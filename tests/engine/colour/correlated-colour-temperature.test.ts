import { expect, test } from 'vitest';
import { type Uv1960, uv1960ToUvPrime, xyToUvPrime } from '../../../src/engine/colour/chromaticity.ts';
import { cctAndDuv, LARGEST_DUV } from '../../../src/engine/colour/correlated-colour-temperature.ts';
import { kelvinToMired, miredToKelvin } from '../../../src/engine/colour/mired.ts';
import { planckianDerivative, planckianUv1960 } from '../../../src/engine/colour/planckian-locus.ts';
import { expectWithin } from '../../expect-within.ts';
import { numberIn, readTable } from '../../published/read-table.ts';
import { blackBodyUv1960 } from './black-body.ts';
import { robertsonMethod } from './robertson-method.ts';

const ofUv = (colour: Uv1960) => {
  const { uPrime, vPrime } = uv1960ToUvPrime(colour);
  return cctAndDuv(uPrime, vPrime);
};
const ofXy = (x: number, y: number) => {
  const { uPrime, vPrime } = xyToUvPrime([x, y]);
  return cctAndDuv(uPrime, vPrime);
};
const besideLocus = (mired: number, duv: number): Uv1960 => {
  const { u, v } = planckianUv1960(mired);
  const tangent = planckianDerivative(mired, 1);
  const speed = Math.hypot(tangent.u, tangent.v);
  return { u: u - (duv * tangent.v) / speed, v: v + (duv * tangent.u) / speed };
};

test('cctAndDuv finds every place along and beside the locus again', () => {
  let largestMired = 0;
  let largestDuv = 0;
  for (let mired = 0.5; mired < 700; mired += 0.5)
    for (const duv of [-0.0499, -0.03, -0.01, -0.002, 0, 0.002, 0.01, 0.03, 0.0499]) {
      const found = ofUv(besideLocus(mired, duv))!;
      largestMired = Math.max(largestMired, Math.abs(found.mired - mired));
      largestDuv = Math.max(largestDuv, Math.abs(found.duv - duv));
    }
  console.log(
    `measured: round trip within ${largestMired.toExponential(1)} mired, ${largestDuv.toExponential(1)} Duv`,
  );
  expect(largestMired).toBeLessThan(1e-7);
  expect(largestDuv).toBeLessThan(1e-7);
});

test('cctAndDuv is null too far from the locus, outside its range, and for NaN', () => {
  for (const mired of [50, 150, 300, 500]) {
    expect(ofUv(besideLocus(mired, LARGEST_DUV + 1e-6))).toBeNull();
    expect(ofUv(besideLocus(mired, -LARGEST_DUV - 1e-6))).toBeNull();
  }
  expect(ofXy(0.15, 0.06)).toBeNull(); // the blue primary of sRGB
  expect(ofXy(0.3, 0.6)).toBeNull(); // its green
  expect(ofXy(0.22, 0.21)).toBeNull(); // bluer than any black body
  expect(ofUv({ u: 0.448011, v: 0.354625 })).toBeNull(); // 1000 K
  expect(cctAndDuv(Number.NaN, 0.47)).toBeNull();
  expect(cctAndDuv(0.2, Number.NaN)).toBeNull();
  expect(cctAndDuv(Number.POSITIVE_INFINITY, 0.47)).toBeNull();
});

test('cctAndDuv is null or near over the whole of u′v′, and never NaN', () => {
  for (let uPrime = -0.1; uPrime <= 0.7; uPrime += 0.005)
    for (let vPrime = -0.1; vPrime <= 0.7; vPrime += 0.005) {
      const found = cctAndDuv(uPrime, vPrime);
      if (found === null) continue;
      expect(Math.abs(found.duv) <= LARGEST_DUV && found.mired >= 0 && found.mired <= 700).toBe(true);
      const back = uv1960ToUvPrime(besideLocus(found.mired, found.duv));
      expectWithin(back.uPrime, uPrime, 1e-9);
      expectWithin(back.vPrime, vPrime, 1e-9);
    }
});

const checks = readTable('cct-duv-check').map((row) => ({
  colour: { u: numberIn(row, 'u1960'), v: numberIn(row, 'v1960') },
  mired: kelvinToMired(numberIn(row, 'CCT_K')),
  duv: numberIn(row, 'Duv'),
  method: row.method!,
}));

test('cctAndDuv meets the 70 points made of a black body at 1 nm and an offset', () => {
  let largestMired = 0;
  let largestDuv = 0;
  const points = checks.filter(({ method }) => method === 'planck-normal-offset');
  expect(points.length).toBe(70);
  for (const { colour, mired, duv } of points) {
    const found = ofUv(colour)!;
    const tangent = planckianDerivative(mired, 1);
    const alongUv = Math.abs(found.mired - mired) * Math.hypot(tangent.u, tangent.v);
    // The points were made with an observer that ends at 780 nm, which moves the reddest by 4e-6; 2e-6 for 5 nm.
    const whole = blackBodyUv1960(mired);
    const cut = blackBodyUv1960(mired, 780);
    const allowedUv = Math.hypot(whole.u - cut.u, whole.v - cut.v) + 2e-6;
    expectWithin(alongUv, 0, allowedUv);
    expectWithin(found.duv, duv, 2e-6);
    largestMired = Math.max(largestMired, Math.abs(found.mired - mired));
    largestDuv = Math.max(largestDuv, Math.abs(found.duv - duv));
  }
  console.log(
    `measured: points by construction within ${largestMired.toFixed(4)} mired, ${largestDuv.toExponential(1)} Duv`,
  );
});

test('cctAndDuv meets the published (u, v) worked with Ohno’s method', () => {
  const points = checks.filter(({ method }) => method === 'ohno2013');
  expect(points.length).toBe(3);
  const [daylight, candle, magenta] = points;
  const found = ofUv(daylight!.colour)!;
  const kelvin = miredToKelvin(found.mired);
  console.log(`measured: ${(kelvin - 1e6 / daylight!.mired).toFixed(2)} K, ${found.duv - daylight!.duv} Duv`);
  expectWithin(kelvin, 1e6 / daylight!.mired, 1); // what Ohno 2014 states for the method
  expectWithin(found.duv, daylight!.duv, 2e-5);
  // The other two lie more than 0.05 from the locus: no colour temperature, by design.
  expect(ofUv(candle!.colour)).toBeNull();
  expect(ofUv(magenta!.colour)).toBeNull();
});

test('the table method reproduces the published points that were made for it', () => {
  const points = checks.filter(({ method }) => method === 'robertson1968');
  expect(points.length).toBe(55);
  let largestMired = 0;
  let largestDuv = 0;
  for (const { colour, mired, duv } of points) {
    const found = robertsonMethod(colour)!;
    largestMired = Math.max(largestMired, Math.abs(found.mired - mired));
    largestDuv = Math.max(largestDuv, Math.abs(found.duv - duv));
  }
  console.log(
    `measured: table method, its own points: ${largestMired.toExponential(1)} mired, ${largestDuv.toExponential(1)} Duv`,
  );
  // They were made forwards, by mixing two rows; two isotherms that are not parallel give back not quite that mix.
  expect(largestMired).toBeLessThan(1e-3);
  expect(largestDuv).toBeLessThan(1e-8);
});

test('cctAndDuv agrees with the table method as closely as its chords allow', () => {
  for (const [largestOffset, miredAllowed] of [
    [0.02, 0.15],
    [0.045, 0.2],
  ] as const) {
    let largestMired = 0;
    let largestDuv = 0;
    for (let mired = 20; mired <= 590; mired += 1.7)
      for (let duv = -largestOffset; duv <= largestOffset; duv += largestOffset / 5) {
        const colour = besideLocus(mired, duv);
        const table = robertsonMethod(colour)!;
        const found = ofUv(colour)!;
        largestMired = Math.max(largestMired, Math.abs(found.mired - table.mired));
        largestDuv = Math.max(largestDuv, Math.abs(found.duv - table.duv));
      }
    console.log(
      `measured: to |Duv| ${largestOffset}, table method within ${largestMired.toFixed(3)} mired, ${largestDuv.toExponential(1)} Duv`,
    );
    expect(largestMired).toBeLessThan(miredAllowed);
    // A chord of 25 mired, 9.8e-3 long, stands off an arc of radius 0.10 by 1.2e-4.
    expect(largestDuv).toBeLessThan(1.2e-4);
  }
});

const illuminants = readTable('illuminants-xy-cct').map((row) => ({
  row,
  found: ofXy(numberIn(row, 'x'), numberIn(row, 'y'))!,
}));

test('cctAndDuv against two methods over the published illuminants', () => {
  const largest = (difference: (entry: (typeof illuminants)[number]) => number) =>
    Math.max(...illuminants.map((entry) => Math.abs(difference(entry))));
  const kelvin = largest(({ row, found }) => miredToKelvin(found.mired) - numberIn(row, 'CCT_ohno_K'));
  const duv = largest(({ row, found }) => found.duv - numberIn(row, 'Duv_ohno'));
  const between = largest(({ row }) => numberIn(row, 'CCT_ohno_K') - numberIn(row, 'CCT_robertson_K'));
  const duvBetween = largest(({ row }) => numberIn(row, 'Duv_ohno') - numberIn(row, 'Duv_robertson'));
  console.log(
    `measured: ${illuminants.length} illuminants within ${kelvin.toFixed(2)} K and ${duv.toExponential(1)} Duv of Ohno’s method; ` +
      `his and Robertson’s differ by up to ${between.toFixed(1)} K and ${duvBetween.toExponential(1)}`,
  );
  expect(illuminants.length).toBe(47);
  expect(kelvin).toBeLessThan(1); // what Ohno 2014 states for his method
  expect(duv).toBeLessThan(2e-5);
});

test.each(illuminants)('cctAndDuv of illuminant $row.illuminant', ({ row, found }) => {
  expectWithin(miredToKelvin(found.mired), numberIn(row, 'CCT_ohno_K'), 1);
  expectWithin(found.duv, numberIn(row, 'Duv_ohno'), 2e-5);
  expectWithin(found.mired, kelvinToMired(numberIn(row, 'CCT_robertson_K')), 0.15);
  expectWithin(found.duv, numberIn(row, 'Duv_robertson'), 1.2e-4);
  const { uPrime, vPrime } = xyToUvPrime([numberIn(row, 'x'), numberIn(row, 'y')]);
  // Four rows were computed from x, y of more digits than they print.
  const tolerance = ['D60', 'E', 'ID65', 'ID50'].includes(row.illuminant!) ? 4e-6 : 0.5e-6;
  expectWithin(uPrime, numberIn(row, 'uprime'), tolerance);
  expectWithin(vPrime, numberIn(row, 'vprime'), tolerance);
});

// A centre printed to 1e-4 in x, y leaves its temperature open by a few kelvin: half a unit is at most 0.22 mired.
test.each(readTable('ansi-c78377'))('cctAndDuv of the centre for $nominal_K K', (row) => {
  const target = kelvinToMired(numberIn(row, 'target_K'));
  const found = ofXy(numberIn(row, 'x_2015'), numberIn(row, 'y_2015'))!;
  expectWithin(found.mired, target, 0.22);
  expectWithin(found.duv, numberIn(row, 'Duv_2015_formula'), 5e-5);
  if (row.x_2008 === '') return;
  const of2008 = ofXy(numberIn(row, 'x_2008'), numberIn(row, 'y_2008'))!;
  expectWithin(of2008.mired, target, 0.22);
  expectWithin(of2008.duv, numberIn(row, 'Duv_2008'), 6e-5);
});
