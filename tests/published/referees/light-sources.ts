import { flickerAfter, flickerDepthEv } from '../../../src/engine/diagnosis/mains-flicker.ts';
import { F_NUMBERS } from '../../../src/engine/exposure/third-stops.ts';
import { DEFAULT_TOLERANCE, TOLERANCES } from '../../../src/engine/tolerances.ts';
import { FEW_POINTS, lightOfModel } from '../../engine/lamps/light-of-model.ts';
import { discRows, panelRows, rectangleRows } from '../face-light-rows.ts';
import type { LightRow } from '../light-row.ts';
import { cosineRows, flattestRows, sheetRows, sideLightRows, twoLightRows } from '../point-light-rows.ts';
import { numberIn, type PublishedRow, readTable } from '../read-table.ts';
import { HALF_A_DIGIT, ofCell, type RefereedFigure, type RefereedSource } from './refereed.ts';

/** Of light thrown by lamps, flicker, marks of exposure and the yardsticks that come with the tool. */
export function lightSources(): RefereedSource[] {
  const thrown = { marks: ['recomputed'], unit: 'as named', tolerance: HALF_A_DIGIT } as const;
  const own = { ...thrown, source: 'derived for this project', marks: ['own'] } as const;
  const few = `${HALF_A_DIGIT}, or 2.5e-5 of the light, which a face’s few points leave`;
  return [
    { title: 'cos³ and cos⁴', source: 'textbook radiometry', ...thrown, figures: cosineRows().map(byModel) },
    { title: 'A light at the side', source: 'E = I/d²', ...thrown, figures: sideLightRows().map(byModel) },
    {
      title: 'Two lights on a background',
      ...own,
      figures: [...twoLightRows(), ...flattestRows()].map(byModel),
    },
    { title: 'A light behind a sheet', ...own, figures: sheetRows().map(byModel) },
    {
      title: 'A rectangle from under its corner',
      source: 'formula as in Siegel and Howell, 4th ed., p. 842',
      ...thrown,
      marks: ['remembered', 'recomputed'],
      figures: rectangleRows('corner').map(byModel),
    },
    {
      title: 'A rectangle from along its side',
      source:
        'an engineering program’s help, pages hs301 and hs303, which cites that page of Siegel and Howell',
      ...thrown,
      marks: ['seen', 'recomputed'],
      figures: rectangleRows('strip').map(byModel),
    },
    {
      title: 'A square panel in 16 × 16 pieces',
      source: 'the same formula',
      ...thrown,
      marks: ['remembered', 'recomputed'],
      figures: panelRows(16).map(byModel),
    },
    {
      title: 'A disc on and off its axis',
      source: 'E = π L r²/(r² + d²), and by quadrature',
      ...thrown,
      tolerance: few,
      figures: discRows().map(byFewPoints),
    },
    {
      title: 'A square panel as one face, no larger than it is far',
      source: 'the same formula as of a rectangle',
      ...thrown,
      marks: ['remembered', 'recomputed'],
      tolerance: few,
      figures: panelRows()
        .filter(({ sizeOverDistance }) => sizeOverDistance <= 1)
        .map(byFewPoints),
    },
    flickerLeft(),
    flickerDepth(),
    apertures(),
    ...yardsticks(),
  ];
}

function byModel({ name, printed, halfUnit, workedOut }: LightRow): RefereedFigure {
  return { name, printed, own: workedOut(lightOfModel), tolerance: halfUnit };
}

function byFewPoints(row: LightRow): RefereedFigure {
  return { ...byModel(row), tolerance: Math.max(row.halfUnit, FEW_POINTS * Math.abs(row.printed)) };
}

const leftBy = (row: PublishedRow) =>
  flickerAfter(numberIn(row, 'hertz'), 1 / numberIn(row, 'one_over_seconds'));
const nameOf = (row: PublishedRow) => `${row.hertz} Hz, 1/${row.one_over_seconds} s`;

function flickerLeft(): RefereedSource {
  return {
    title: 'Flicker that a shutter time leaves',
    source: '|sin(πfT)/(πfT)|',
    marks: ['recomputed'],
    unit: 'share',
    tolerance: HALF_A_DIGIT,
    figures: readTable('flicker-left').map((row) => ofCell(row, 'left', nameOf(row), leftBy(row))),
  };
}

function flickerDepth(): RefereedSource {
  return {
    title: 'Flicker of a modulation, as light from dark to bright',
    source: 'log2((1 + m)/(1 − m)) of what is left; percent flicker as in IES RP-16, 5.9.9.2',
    marks: ['recomputed'],
    unit: 'stops',
    tolerance: HALF_A_DIGIT,
    figures: readTable('flicker-depth').map((row) => {
      const left = (numberIn(row, 'modulation_percent') / 100) * leftBy(row);
      const name = `${nameOf(row)}, ${row.modulation_percent} %`;
      return ofCell(row, 'peak_to_peak_EV', name, flickerDepthEv(left));
    }),
  };
}

function apertures(): RefereedSource {
  const printed =
    '1 1.1 1.2 1.4 1.6 1.8 2 2.2 2.5 2.8 3.2 3.5 4 4.5 5.0 5.6 6.3 7.1 8 9 10 11 13 14 16 18 20 22';
  const marks = F_NUMBERS.marks.toReversed();
  return {
    title: 'Marks of apertures in thirds of a stop',
    source: 'a table of apertures at kameraarkasi.org',
    marks: ['seen'],
    unit: 'f-number',
    tolerance: 'none',
    figures: printed
      .split(' ')
      .map((mark, i) => ({ name: `mark ${i + 1}`, printed: mark, own: marks[i]!, tolerance: 0 })),
  };
}

/** What the source prints of the limit that a built-in yardstick takes from it. */
const PRINTED = [
  ['0.3 stop across', 'limit', '0.32', 'Rash et al. 1996, 20 % as quoted by Rash & McLean', 'second-hand'],
  ['5 % from the centre', 'limit', '0.05', 'ISO 12646:2013, “should”', 'seen'],
  ['5 % from the centre', 'tintDeltaUv', '0.01', 'ISO 12646:2013', 'seen'],
  ['10 % from the centre', 'limit', '0.10', 'ISO 12646:2013, “shall”', 'seen'],
  ['10 % from the centre', 'tintDeltaUv', '0.01', 'ISO 12646:2013', 'seen'],
  ['20 % from the centre', 'limit', '0.20', 'SMPTE ST 431-1:2006, 80 % of the centre', 'second-hand'],
  ['Nine points within 75 %', 'limit', '0.75', 'acceptance of panels', 'second-hand'],
  ['Nine points within 75 %', 'tintDeltaUv', '0.02', 'NUREG-0700 rev. 3, 11.3.1.4.4-3', 'seen'],
  ['30 % from centre to edge', 'limit', '0.30', 'SPIE tutorial text on CRT displays, chapter 6', 'seen'],
  ['Darkest at least 0.6 of the mean', 'limit', '0.60', 'EN 12464-1', 'second-hand'],
  [
    '1 stop across the frame',
    'limit',
    '1',
    'Farrell and Booth 1984, 50 % as quoted by Rash & McLean',
    'second-hand',
  ],
] as const;

function yardsticks(): RefereedSource[] {
  return PRINTED.map(([beginning, field, printed, source, mark]) => {
    const yardstick = TOLERANCES.find(({ name }) => name.startsWith(beginning))!;
    const tolerance = yardstick === DEFAULT_TOLERANCE ? 0.05 : 1e-12;
    const of = field === 'limit' ? 'the light' : 'the tint';
    return {
      title: `Yardstick “${beginning}”: ${of}`,
      source,
      marks: [mark],
      unit: field === 'limit' ? (yardstick.measure === 'range' ? 'stops' : 'ratio') : 'u′v′',
      ...(yardstick === DEFAULT_TOLERANCE
        ? {
            tolerance:
              'the tool’s limit is set in tenths of a stop, the step it tells light in: half a tenth',
          }
        : { tolerance: 'none' }),
      figures: [{ name: of, printed, own: yardstick[field], tolerance }],
    };
  });
}
