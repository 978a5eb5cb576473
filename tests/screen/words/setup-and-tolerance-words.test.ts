import { expect, test } from 'vitest';
import { UNKNOWN_SETUP } from '../../../src/engine/setup.ts';
import { DEFAULT_TOLERANCE } from '../../../src/engine/tolerances.ts';
import { withArrangement, withLightDistance } from '../../../src/screen/words/setup-words.ts';
import {
  colourLimitWords,
  isOwnTolerance,
  limitFigure,
  ownTolerance,
  parseFigure,
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
    ['nine-point-min-max', 0.755, '75.5'],
  ] as const) {
    expect(limitFigure({ measure, limit })).toBe(figure);
    expectWithin(parseLimit(figure, measure)!, limit, 1e-12);
  }
});

test('parseLimit and parseFigure take commas and units, and refuse what is no limit', () => {
  expect(parseLimit('0,3 stop', 'range')).toBe(0.3);
  expectWithin(parseLimit(' 20 % ', 'from-centre')!, 0.2, 1e-12);
  for (const text of ['', '0', '-1', 'a little', '1e3', '0.3.1']) expect(parseFigure(text)).toBeNull();
  expect(parseLimit('100', 'min-over-mean')).toBeNull();
});

test('colourLimitWords(Δu′v′) says it in mired too', () => {
  expect(colourLimitWords(0.0047).replace('\u00a0', ' ')).toBe('Δu′v′ (10 mired near daylight)');
});
