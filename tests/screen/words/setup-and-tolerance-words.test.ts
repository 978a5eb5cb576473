import { expect, test } from 'vitest';
import { UNKNOWN_SETUP } from '../../../src/engine/setup.ts';
import { DEFAULT_TOLERANCE } from '../../../src/engine/tolerances.ts';
import { withArrangement, withLightDistance } from '../../../src/screen/words/setup-words.ts';
import {
  colourFigure,
  colourLimitWords,
  colourSlipWords,
  isOwnTolerance,
  limitFigure,
  limitSlipWords,
  type Measure,
  ownTolerance,
  parseColourLimit,
  parseLimit,
} from '../../../src/screen/words/tolerance-words.ts';
import { expectWithin } from '../../expect-within.ts';

test('withLightDistance(setup) keeps each light’s own distance, and none where none is known', () => {
  const two = withArrangement(UNKNOWN_SETUP, 'two-lamps');
  const right = withLightDistance(two, 1, 900);
  expect(right.lampDistanceMm).toEqual([null, 900]);
  const both = withLightDistance(right, 0, 600);
  expect(both.lampDistanceMm).toEqual([600, 900]);
  expect(withLightDistance(right, 1, null).lampDistanceMm).toEqual([]);
  expect(withArrangement(both, 'panel').lampDistanceMm).toEqual([600]);
});

test('ownTolerance(before) keeps the figures in force, and begins anew under another measure', () => {
  const own = ownTolerance(DEFAULT_TOLERANCE, { limit: 0.25 });
  expect(own).toMatchObject({ limit: 0.25, measure: 'range', tintDeltaUv: DEFAULT_TOLERANCE.tintDeltaUv });
  expect(own.name).toBe('0.25 stop across the frame, your own limit');
  expect(isOwnTolerance(own)).toBe(true);
  expect(isOwnTolerance(DEFAULT_TOLERANCE)).toBe(false);
  const ratio = ownTolerance(own, { measure: 'min-over-mean' });
  expect(ratio.limit).toBe(0.8);
  expect(ratio.name).toBe('80 % of the mean, at least, your own limit');
});

test('limitFigure and parseLimit agree, in stops and in percent', () => {
  for (const [measure, limit, figure] of [
    ['range', 0.3, '0.3'],
    ['range', 0.25, '0.25'],
    ['from-centre', 0.1, '10'],
    ['from-centre', 0.125, '12.5'],
    ['nine-point-min-max', 0.755, '75.5'],
  ] as const) {
    expect(limitFigure({ measure, limit })).toBe(figure);
    expectWithin(parseLimit(figure, measure)!, limit, 1e-12);
  }
});

const TYPED: readonly (readonly [string, Measure, number | null])[] = [
  ['0,3 stop', 'range', 0.3],
  ['.25', 'range', 0.25],
  ['2 stops', 'range', 2],
  ['0.01', 'range', 0.01],
  ['0.001', 'range', null],
  ['10', 'range', 10],
  ['99999', 'range', null],
  ['10%', 'range', null],
  ['10 %', 'from-centre', 0.1],
  ['12.5', 'from-centre', 0.125],
  ['1 stop', 'from-centre', null],
  ['99', 'min-over-mean', 0.99],
  ['100', 'min-over-mean', null],
  ['0.05', 'nine-point-min-max', null],
  ...['', '0', '-1', 'a little', '1e3', '0.3.1', '10 mired'].map((text) => [text, 'range', null] as const),
];
test.each(TYPED)('parseLimit(%j) under %s is %j', (text, measure, limit) => {
  const parsed = parseLimit(text, measure);
  if (limit === null) expect(parsed).toBeNull();
  else expectWithin(parsed!, limit, 1e-12);
});

const TYPED_COLOURS: readonly (readonly [string, number | null, shown: string])[] = [
  ['0.0047', 0.0047, '0.0047'],
  ['0,005 Δu′v′', 0.005, '0.005'],
  ["0.005 u'v'", 0.005, '0.005'],
  ['10 mired', 0.0047, '0.0047'],
  ['1.5 mired', 0.000705, '0.00071'],
  ['0.00001', null, ''],
  ['0.2', null, ''],
  ['500 mired', null, ''],
  ['10 %', null, ''],
  ['abc', null, ''],
];
test.each(TYPED_COLOURS)('parseColourLimit(%j) is %j', (text, deltaUv, shown) => {
  const parsed = parseColourLimit(text);
  if (deltaUv === null) expect(parsed).toBeNull();
  else {
    expectWithin(parsed!, deltaUv, 1e-9);
    expect(colourFigure(parsed!)).toBe(shown);
  }
});

test('a limit that was not understood is answered by what could be, and by what stays', () => {
  const said = (limit: number, measure: Measure) =>
    limitSlipWords('abc', { measure, limit }).replaceAll('\u00a0', ' ');
  expect(said(0.3, 'range')).toBe('“abc” is no limit from 0.01 to 10 stops: 0.3 stop stays.');
  expect(said(2.5, 'range')).toBe('“abc” is no limit from 0.01 to 10 stops: 2.5 stops stays.');
  expect(said(0.8, 'min-over-mean')).toBe('“abc” is no limit from 0.1 to 99 %: 80 % stays.');
  expect(colourSlipWords('abc', 0.0047)).toBe(
    '“abc” is no limit from 0.0005 to 0.1 Δu′v′, nor one in mired: 0.0047 Δu′v′ stays.',
  );
});

test('colourLimitWords(Δu′v′) says it in mired too', () => {
  expect(colourLimitWords(0.0047).replace('\u00a0', ' ')).toBe('Δu′v′ (10 mired near daylight)');
});
