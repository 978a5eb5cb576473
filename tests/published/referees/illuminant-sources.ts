import { cctAndDuv } from '../../../src/engine/colour/correlated-colour-temperature.ts';
import { miredToKelvin } from '../../../src/engine/colour/mired.ts';
import { numberIn, type PublishedRow, readTable } from '../read-table.ts';
import { inMired } from './in-mired.ts';
import { HALF_A_DIGIT, ofCell, type RefereedSource } from './refereed.ts';
import { uvOfXy } from './uv-of-xy.ts';

/** Of lights by name: illuminants, and the centres that lamps are sold by. */
export function illuminantSources(): RefereedSource[] {
  return [...illuminants(), ...lampCentres()];
}

function illuminants(): RefereedSource[] {
  const rows = readTable('illuminants-xy-cct').map((row) => {
    const { uPrime, vPrime } = uvOfXy(numberIn(row, 'x'), numberIn(row, 'y'));
    return { row, name: row.illuminant!, uPrime, vPrime, found: cctAndDuv(uPrime, vPrime)! };
  });
  const source = 'x, y: CIE 15 and CIE TC 1-48 (seen in github.com/colour-science/colour)';
  const marks = ['recomputed'] as const;
  return [
    {
      title: 'Illuminants: colour temperature by Ohno’s method',
      ...{ source, marks, unit: 'K' },
      tolerance: 'what Ohno 2014 states for his method',
      figures: rows.map(({ row, name, found }) =>
        ofCell(row, 'CCT_ohno_K', name, miredToKelvin(found.mired), 1),
      ),
    },
    {
      title: 'Illuminants: Duv by Ohno’s method',
      ...{ source, marks, unit: 'Duv' },
      tolerance: 'twice the last digit',
      figures: rows.map(({ row, name, found }) => ofCell(row, 'Duv_ohno', name, found.duv, 2e-5)),
    },
    {
      title: 'Illuminants: warmth by Robertson’s method',
      ...{ source, marks, unit: 'mired' },
      tolerance: 'that method’s chords',
      figures: rows.map(({ row, name, found }) => inMired(row, 'CCT_robertson_K', name, found.mired, 0.15)),
    },
    {
      title: 'Illuminants: Duv by Robertson’s method',
      ...{ source, marks, unit: 'Duv' },
      tolerance: 'that method’s chords',
      figures: rows.map(({ row, name, found }) => ofCell(row, 'Duv_robertson', name, found.duv, 1.2e-4)),
    },
    {
      title: 'Illuminants: u′v′',
      ...{ source, marks, unit: 'u′v′' },
      tolerance: `${HALF_A_DIGIT}; 4e-6 for four that were computed from more digits of x, y`,
      figures: rows.flatMap(({ row, name, uPrime, vPrime }) => {
        const allowed = ['D60', 'E', 'ID65', 'ID50'].includes(name) ? 4e-6 : 0.5e-6;
        return [
          ofCell(row, 'uprime', `u′ of ${name}`, uPrime, allowed),
          ofCell(row, 'vprime', `v′ of ${name}`, vPrime, allowed),
        ];
      }),
    },
  ];
}

function lampCentres(): RefereedSource[] {
  const rows = readTable('ansi-c78377');
  const found = (row: PublishedRow, year: string) => {
    const { uPrime, vPrime } = uvOfXy(numberIn(row, `x_${year}`), numberIn(row, `y_${year}`));
    return cctAndDuv(uPrime, vPrime)!;
  };
  const of = (year: '2015' | '2008', duv: string, duvAllowed: number) => {
    const with2 = rows.filter((row) => row[`x_${year}`] !== '');
    return {
      warmth: with2.map((row) =>
        inMired(row, 'target_K', `${row.nominal_K} K`, found(row, year).mired, 0.22),
      ),
      duv: with2.map((row) => ofCell(row, duv, `${row.nominal_K} K`, found(row, year).duv, duvAllowed)),
    };
  };
  const newer = of('2015', 'Duv_2015_formula', 5e-5);
  const older = of('2008', 'Duv_2008', 6e-5);
  const warmth = { unit: 'mired', tolerance: 'half a unit of the centre’s x, y' };
  const seconds = {
    source: 'centres and targets of lamps of 2015, by a test laboratory’s page on ANSI C78.377',
    marks: ['second-hand'],
  } as const;
  const firsts = { source: 'centres of lamps of 2008', marks: ['remembered', 'recomputed'] } as const;
  return [
    { title: 'Lamps’ centres of 2015: warmth', figures: newer.warmth, ...warmth, ...seconds },
    {
      title: 'Lamps’ centres of 2015: Duv',
      ...{ unit: 'Duv', tolerance: 'half a unit of the centre’s x, y', figures: newer.duv },
      source: 'a formula for Duv at any temperature',
      marks: ['remembered', 'recomputed'],
    },
    { title: 'Lamps’ centres of 2008: warmth', figures: older.warmth, ...warmth, ...firsts },
    {
      title: 'Lamps’ centres of 2008: Duv',
      ...{ unit: 'Duv', tolerance: 'half a unit of the centre’s x, y', figures: older.duv },
      ...firsts,
    },
  ];
}
