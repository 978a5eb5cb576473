import { expect, test } from 'vitest';
import { UNKNOWN_SETUP } from '../../../src/engine/setup.ts';
import {
  enteredFigures,
  exposureWords,
  falloffFigures,
  rampFigures,
} from '../../../src/screen/words/record-words.ts';
import { readingFixture } from '../../plots/reading-fixture.ts';

const NOTHING = { seconds: null, fNumber: null, iso: null, focalLengthMm: null, takenAt: null };

test('exposureWords(exposure) says what the file says, as it is marked', () => {
  expect(exposureWords({ seconds: 1 / 125, fNumber: 5.6, iso: 100, focalLengthMm: 50, takenAt: null })).toBe(
    '1/125 s, f/5.6, ISO 100, 50 mm',
  );
  expect(exposureWords({ ...NOTHING, seconds: 0.8, fNumber: 11 })).toBe('0.8 s, f/11');
  expect(exposureWords({ ...NOTHING, seconds: 30 })).toBe('30 s');
  expect(exposureWords({ ...NOTHING, takenAt: '2026-03-01T10:20:30' })).toBeNull();
  expect(exposureWords(null)).toBeNull();
});

test('falloffFigures(reading) gives the spread its ±, and none to a lower bound', () => {
  const reading = readingFixture({ columns: 4, rows: 3 });
  const spread = (isLowerBound: boolean) => {
    const falloff = { ...reading.falloff, spreadEv: 0.9, plusMinusEv: 0.1, isLowerBound };
    return falloffFigures({ ...reading, falloff })[0]!
      .join(': ')
      .replaceAll('\u00a0', ' ');
  };
  expect(spread(false)).toBe('Spread: 0.90 stop ± 0.10');
  expect(spread(true)).toBe('Spread: at least 0.90 stop');
});

test('rampFigures(reading) is empty where there is no slope to speak of', () => {
  const reading = readingFixture({ columns: 4, rows: 3 });
  expect(rampFigures({ ...reading, gradient: { ...reading.gradient, angleDeg: null } })).toEqual([]);
});

test('enteredFigures(setup, unit) tells what was entered and leaves out what was not', () => {
  expect(enteredFigures(UNKNOWN_SETUP, 'cm')).toEqual([['Set-up', 'A light behind a sheet']]);
  const setup = {
    ...UNKNOWN_SETUP,
    arrangement: 'two-lamps',
    light: 'flash',
    frameWidthMm: 900,
    lampDistanceMm: [800, null],
    room: { leftMm: 500, rightMm: null, upMm: null, downMm: 400, reachMm: 2000 },
  } as const;
  expect(enteredFigures(setup, 'cm')).toEqual([
    ['Set-up', 'Two lights on a background, flash'],
    ['Frame’s width', '90 cm'],
    ['Distance of the left light', '80 cm'],
    ['Room for the light', 'left 50 cm, down 40 cm, at most 200 cm'],
  ]);
});
