import { expect, test } from 'vitest';
import { expectWithin } from '../../expect-within.ts';
import { numberIn, readTable } from '../../published/read-table.ts';
import { uvPrimeOfXyz } from '../colour-truth.ts';
import { shiftedLight } from './colour-shift.ts';
import { xyzOfLight } from './light-colour.ts';

// the illuminants' nominal temperatures go by an older radiation constant, c2 = 1.438e-2 m K (CIE 15, remembered)
const NOMINAL = 1.4388 / 1.438;

test.each(readTable('illuminants-xy-cct').filter(({ illuminant }) => /^D\d\d$/.test(illuminant!)))(
  'daylight of $illuminant has its chromaticity',
  (row) => {
    const kelvin = 100 * Number(row.illuminant!.slice(1)) * NOMINAL;
    const [x, y, z] = xyzOfLight({ kind: 'daylight', kelvin });
    // D50, D60 and D65 are published to four digits
    expectWithin(x / (x + y + z), numberIn(row, 'x'), 5e-5);
    // the locus's own equation, a parabola, passes the illuminants by so much: 0.3291 for D65's 0.3290
    expectWithin(y / (x + y + z), numberIn(row, 'y'), 1.3e-4);
  },
);

test('a light moved off the locus by duv lies where the table of offsets says', () => {
  let [rows, worst] = [0, 0];
  for (const row of readTable('cct-duv-check')) {
    if (row.method !== 'planck-normal-offset') continue;
    const [u, v] = uvPrimeOfXyz(
      xyzOfLight({ kind: 'planckian', kelvin: numberIn(row, 'CCT_K'), duv: numberIn(row, 'Duv') }),
    );
    worst = Math.max(worst, Math.hypot(u - numberIn(row, 'u1960'), v - 1.5 * numberIn(row, 'v1960')));
    rows++;
  }
  console.log(`measured: ${rows} lights off the locus within ${worst.toExponential(1)} in u′v′`);
  expect(rows).toBe(70);
  // the studio's locus is a spline through 31 points of five digits
  expect(worst).toBeLessThan(5e-5);
});

test.each(readTable('mired-filters'))(
  'shiftedLight by the $mired_shift mired of filter $filter turns $handbook_conversion K',
  (row) => {
    const [from, to] = row.handbook_conversion!.split('->').map(Number);
    const { kelvin } = shiftedLight(
      { kind: 'planckian', kelvin: from! },
      numberIn(row, 'check_mired_from_conversion'),
    );
    expectWithin(1e6 / kelvin, 1e6 / to!, 0.05);
  },
);
