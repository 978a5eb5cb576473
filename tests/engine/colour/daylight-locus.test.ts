import { expect, test } from 'vitest';
import { daylightXy } from '../../../src/engine/colour/daylight-locus.ts';
import { D50, D65 } from '../../../src/engine/colour/white-points.ts';
import { expectWithin } from '../../expect-within.ts';
import { D55, D75 } from './illuminants.ts';

// Sources: 4000, 7000 and 25 000 K from the tests of github.com/colour-science/colour; 5000 and 6500 K recomputed
// from the equations of CIE 15. Half a unit in the last printed digit.
test.each([
  [4000, 0.382343625, 0.383766261, 0.5e-9],
  [7000, 0.305357431, 0.321646345, 0.5e-9],
  [25_000, 0.24985367, 0.254799464, 0.5e-9],
  [5000, 0.345741, 0.358666, 0.5e-6],
  [6500, 0.312779, 0.329183, 0.5e-6],
])('daylightXy(%i) is %f, %f', (kelvin, x, y, tolerance) => {
  const found = daylightXy(kelvin);
  expectWithin(found[0], x, tolerance);
  expectWithin(found[1], y, tolerance);
});

// The illuminants' own chromaticities come from their tabulated spectra; the equations meet them within 2e-4.
test.each([
  { name: 'D50', white: D50, nominal: 5000 },
  { name: 'D55', white: D55, nominal: 5500 },
  { name: 'D65', white: D65, nominal: 6500 },
  { name: 'D75', white: D75, nominal: 7500 },
])('daylightXy passes $name at its name’s temperature × 1.4388 / 1.4380', ({ white, nominal }) => {
  const found = daylightXy((nominal * 1.4388) / 1.438);
  expectWithin(found[0], white[0], 2e-4);
  expectWithin(found[1], white[1], 2e-4);
});

test('daylightXy has no jump where its two equations meet', () => {
  const below = daylightXy(7000);
  const above = daylightXy(7000.001);
  expectWithin(above[0], below[0], 1e-6);
});

test('daylightXy outside 4000 to 25 000 K and of NaN is NaN', () => {
  for (const kelvin of [3999, 25_001, Number.NaN]) expect(daylightXy(kelvin)[0]).toBeNaN();
});
