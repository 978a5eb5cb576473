import { kelvinToMired } from '../../../src/engine/colour/mired.ts';
import { planckianUv1960 } from '../../../src/engine/colour/planckian-locus.ts';
import { readTable } from '../read-table.ts';
import { HALF_A_DIGIT, ofCell, type RefereedSource } from './refereed.ts';

/** Of mired: filters’ shifts, and what a step is. */
export function filterSources(): RefereedSource[] {
  return [...filters(), mired(), tenMired()];
}

function filters(): RefereedSource[] {
  const rows = readTable('mired-filters').map((row) => {
    const [from, to] = row.handbook_conversion!.split('->').map(Number);
    return {
      row,
      name: `${row.filter}, ${row.handbook_conversion} K`,
      own: kelvinToMired(to!) - kelvinToMired(from!),
    };
  });
  return [
    {
      title: 'Filters’ shifts, by number',
      source: 'a film-makers’ filter guide; Practical Cinematography, figure 14.2',
      marks: ['seen'],
      unit: 'mired',
      tolerance: 'a unit: numbers and conversions are rounded each by itself',
      figures: rows.map(({ row, name, own }) => ofCell(row, 'mired_shift', name, own, 1)),
    },
    {
      title: 'Filters’ shifts, from their conversions',
      source: '1e6 / T',
      marks: ['recomputed'],
      unit: 'mired',
      tolerance: HALF_A_DIGIT,
      figures: rows.map(({ row, name, own }) =>
        ofCell(row, 'check_mired_from_conversion', name, own, 0.05 + 1e-9),
      ),
    },
  ];
}

function mired(): RefereedSource {
  const rows = [
    [3200, '312.5'],
    [6500, '153.846154'],
    [15_000, '66.666667'],
  ] as const;
  return {
    title: 'Mired of kelvin',
    source: 'tests of github.com/colour-science/colour',
    marks: ['seen'],
    unit: 'mired',
    tolerance: HALF_A_DIGIT,
    figures: rows.map(([kelvin, printed]) => ({
      ...{ name: `${kelvin} K`, printed, own: kelvinToMired(kelvin), tolerance: 0.5e-6 },
    })),
  };
}

function tenMired(): RefereedSource {
  const rows = [
    [2750, '0.0036'],
    [3100, '0.0037'],
    [5250, '0.0047'],
    [6250, '0.0049'],
  ] as const;
  return {
    title: 'Ten mired as a distance',
    source: 'Planck’s law over the CIE 1931 observer',
    marks: ['recomputed'],
    unit: 'u′v′',
    tolerance: HALF_A_DIGIT,
    figures: rows.map(([kelvin, printed]) => {
      const [from, to] = [-5, 5].map((step) => planckianUv1960(kelvinToMired(kelvin) + step));
      const own = Math.hypot(to!.u - from!.u, 1.5 * (to!.v - from!.v));
      return { name: `about ${kelvin} K`, printed, own, tolerance: 0.5e-4 };
    }),
  };
}
