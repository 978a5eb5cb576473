import { bradfordMatrix } from '../../../src/engine/colour/bradford.ts';
import { daylightXy } from '../../../src/engine/colour/daylight-locus.ts';
import { D50, D65 } from '../../../src/engine/colour/white-points.ts';
import { HALF_A_DIGIT, halfUnitOf, type RefereedSource } from './refereed.ts';

/** Of whites: daylight, and adaptation from one to another. */
export function whiteSources(): RefereedSource[] {
  return [daylight(), daylightBy(), bradford()];
}

function daylight(): RefereedSource {
  const rows = [
    [4000, '0.382343625', '0.383766261'],
    [7000, '0.305357431', '0.321646345'],
    [25_000, '0.249853670', '0.254799464'],
  ] as const;
  return {
    ...daylightOf('Daylight locus, as tested elsewhere', rows),
    source: 'documentation and tests of github.com/colour-science/colour',
    marks: ['seen'],
  };
}

function daylightBy(): RefereedSource {
  const rows = [
    [5000, '0.345741', '0.358666'],
    [6500, '0.312779', '0.329183'],
  ] as const;
  return {
    ...daylightOf('Daylight locus, worked out anew', rows),
    source: 'the equations of CIE 15',
    marks: ['recomputed'],
  };
}

function daylightOf(title: string, rows: readonly (readonly [kelvin: number, x: string, y: string])[]) {
  const figures = rows.flatMap(([kelvin, ...printed]) =>
    printed.map((each, i) => ({
      name: `${'xy'[i]} at ${kelvin} K`,
      printed: each,
      own: daylightXy(kelvin)[i]!,
      tolerance: halfUnitOf(each),
    })),
  );
  return { title, unit: 'x, y', tolerance: HALF_A_DIGIT, figures };
}

function bradford(): RefereedSource {
  const printed = [1.04788, 0.02292, -0.05022, 0.02959, 0.99048, -0.01707, -0.00925, 0.01508, 0.75168];
  const own = bradfordMatrix(D65, D50);
  return {
    title: 'Bradford adaptation from D65 to D50',
    source: 'chromatic-adaptation tag of sRGB profiles, version 4',
    marks: ['remembered'],
    unit: 'share of white',
    tolerance: 'the connection space’s white is rounded to four digits there',
    figures: printed.map((each, i) => ({
      name: `row ${1 + Math.floor(i / 3)}, column ${1 + (i % 3)}`,
      printed: each,
      own: own[i]!,
      tolerance: 5e-4,
    })),
  };
}
