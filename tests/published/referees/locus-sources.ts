import { uv1960ToUvPrime } from '../../../src/engine/colour/chromaticity.ts';
import { cctAndDuv } from '../../../src/engine/colour/correlated-colour-temperature.ts';
import { kelvinToMired, miredToKelvin } from '../../../src/engine/colour/mired.ts';
import { planckianDerivative, planckianUv1960 } from '../../../src/engine/colour/planckian-locus.ts';
import { blackBodyUv1960 } from '../../engine/colour/black-body.ts';
import { numberIn, type PublishedRow, readTable } from '../read-table.ts';
import { inMired } from './in-mired.ts';
import { ofCell, type RefereedFigure, type RefereedSource } from './refereed.ts';
import { uvOfXy } from './uv-of-xy.ts';

/** Of black bodies: the locus, and points on and beside it. */
export function locusSources(): RefereedSource[] {
  return [...robertsonRows(), planck(), ohno(), ...robertsonPoints(), ...offsetPoints()];
}

/** The locus is a series up to here, bluer than any light and warmer than any lamp. */
const REACH_MIRED = 700;

function robertsonRows(): RefereedSource[] {
  const rows = readTable('robertson-isotemperature');
  const of = {
    source: 'Robertson 1968, J. Opt. Soc. Am. 58, 1528; Wyszecki and Stiles 2000, table 1(3.11)',
    marks: ['seen', 'recomputed'],
  } as const;
  const places = rows.flatMap((row) => {
    const { u, v } = planckianUv1960(numberIn(row, 'mired'));
    return [
      ofCell(row, 'u1960', `u at ${row.mired} mired`, u, 7e-6),
      ofCell(row, 'v1960', `v at ${row.mired} mired`, v, 7e-6),
    ];
  });
  const directions = rows.map((row): RefereedFigure => {
    const tangent = planckianDerivative(numberIn(row, 'mired'), 1);
    const printed = Math.atan(numberIn(row, 'slope_t'));
    const own = Math.atan(-tangent.u / tangent.v);
    return { name: `${row.mired} mired`, printed: printed.toFixed(6), own, tolerance: 5e-5 };
  });
  return [
    {
      title: 'Isotemperature lines: places on the locus',
      unit: 'u, v 1960',
      tolerance: 'computed in 1968 from the observer as then tabulated',
      figures: places,
      ...of,
    },
    {
      title: 'Isotemperature lines: directions',
      unit: 'rad',
      tolerance: 'a slope of five digits, as an angle',
      figures: directions,
      ...of,
    },
  ];
}

function planck(): RefereedSource {
  const figures = readTable('planckian-locus')
    .filter((row) => kelvinToMired(numberIn(row, 'T_K')) <= REACH_MIRED)
    .flatMap((row) => {
      const { u, v } = planckianUv1960(kelvinToMired(numberIn(row, 'T_K')));
      const { uPrime, vPrime } = uvOfXy(numberIn(row, 'x'), numberIn(row, 'y'));
      return [
        ofCell(row, 'u1960', `u at ${row.T_K} K`, u, 1.7e-6),
        ofCell(row, 'v1960', `v at ${row.T_K} K`, v, 1.7e-6),
        ofCell(row, 'uprime', `u′ of x, y at ${row.T_K} K`, uPrime, 1.5e-6),
        ofCell(row, 'vprime', `v′ of x, y at ${row.T_K} K`, vPrime, 1.5e-6),
      ];
    });
  return {
    title: 'Planckian locus at 1 nm',
    source: 'Planck’s law, c2 = 1.4388e-2 m K, over the CIE 1931 observer',
    marks: ['recomputed'],
    unit: 'u, v',
    tolerance: 'half a unit, and an observer at 5 nm; half a unit of x, y for u′v′ of those',
    figures,
  };
}

const ofUv = (row: PublishedRow) => {
  const { uPrime, vPrime } = uv1960ToUvPrime({ u: numberIn(row, 'u1960'), v: numberIn(row, 'v1960') });
  return cctAndDuv(uPrime, vPrime);
};
const checks = () =>
  readTable('cct-duv-check').map((row, i) => ({ row, name: `row ${i + 1}`, found: ofUv(row) }));
const METHOD_KELVIN = 'what Ohno 2014 states for his method, 1 K, and 2e-5 of Duv';

function ohno(): RefereedSource {
  // two of the three lie over 0.05 from the locus, where the tool gives no colour temperature
  const near = checks().filter(({ row, found }) => row.method === 'ohno2013' && found !== null);
  return {
    title: 'Colour temperature by Ohno’s method',
    source: 'tests of github.com/colour-science/colour, not the paper',
    marks: ['seen'],
    unit: 'K; Duv',
    tolerance: METHOD_KELVIN,
    figures: near.flatMap(({ row, name, found }) => [
      ofCell(row, 'CCT_K', `${name}, K`, miredToKelvin(found!.mired), 1),
      ofCell(row, 'Duv', `${name}, Duv`, found!.duv, 2e-5),
    ]),
  };
}

const TABLE_METHOD = 'the table method’s chords: 0.15 mired and 1.2e-4 of Duv';

function robertsonPoints(): RefereedSource[] {
  const points = checks().filter(({ row }) => row.method === 'robertson1968');
  const of = {
    source: 'tests of github.com/colour-science/colour, made for the table method',
    marks: ['seen'],
    tolerance: TABLE_METHOD,
  } as const;
  const found = points.filter((point) => point.found !== null && Math.abs(numberIn(point.row, 'Duv')) < 0.05);
  return [
    {
      title: 'Points between isotemperature lines: warmth',
      unit: 'mired',
      figures: found.map(({ row, name, found: own }) => inMired(row, 'CCT_K', name, own!.mired, 0.2)),
      ...of,
      tolerance: 'the table method’s chords: 0.2 mired',
    },
    {
      title: 'Points between isotemperature lines: Duv',
      unit: 'Duv',
      figures: found.map(({ row, name, found: own }) => ofCell(row, 'Duv', name, own!.duv, 1.2e-4)),
      ...of,
      tolerance: 'the table method’s chords',
    },
  ];
}

function offsetPoints(): RefereedSource[] {
  const points = checks().filter(({ row }) => row.method === 'planck-normal-offset');
  const of = {
    source: 'a black body at 1 nm and an offset square to the locus',
    marks: ['recomputed'],
  } as const;
  const warmth = points.map(({ row, name, found }) => {
    const mired = kelvinToMired(numberIn(row, 'CCT_K'));
    const tangent = planckianDerivative(mired, 1);
    const [whole, cut] = [blackBodyUv1960(mired), blackBodyUv1960(mired, 780)];
    const allowedUv = Math.hypot(whole.u - cut.u, whole.v - cut.v) + 2e-6;
    return inMired(row, 'CCT_K', name, found!.mired, allowedUv / Math.hypot(tangent.u, tangent.v) + 0.5e-4);
  });
  return [
    {
      title: 'Points beside the locus: warmth',
      unit: 'mired',
      tolerance: 'their observer ends at 780 nm; 2e-6 of u, v for 5 nm',
      figures: warmth,
      ...of,
    },
    {
      title: 'Points beside the locus: Duv',
      unit: 'Duv',
      tolerance: 'an observer at 5 nm',
      figures: points.map(({ row, name, found }) => ofCell(row, 'Duv', name, found!.duv, 2e-6)),
      ...of,
    },
  ];
}
