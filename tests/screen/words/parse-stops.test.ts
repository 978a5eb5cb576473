import { expect, test } from 'vitest';
import {
  figureSlipWords,
  parseCode,
  parseStops,
  stopsFigure,
} from '../../../src/screen/words/parse-stops.ts';

test.each([
  ['1', 1],
  ['0.3', 0.3],
  ['0,7 stop', 0.7],
  ['.5 EV', 0.5],
  ['1/3', 1 / 3],
  ['1 2/3 stops', 5 / 3],
  ['2/3 stop', 2 / 3],
  ['', null],
  ['stop', null],
  ['-1', null],
  ['9', null],
  ['1/0', null],
  ['1 2', null],
  ['a stop', null],
])('parseStops(%j) is %j', (text, stops) => {
  const parsed = parseStops(text, { least: 0, most: 8 });
  if (stops === null) expect(parsed).toBeNull();
  else expect(parsed).toBeCloseTo(stops, 12);
});

test.each([
  ['230', 230],
  ['90 %', 229.5],
  ['90%', 229.5],
  ['12,5', 12.5],
  ['256', null],
  ['101 %', null],
  ['white', null],
])('parseCode(%j) is %j', (text, code) => {
  const parsed = parseCode(text, { least: 1, most: 255 });
  if (code === null) expect(parsed).toBeNull();
  else expect(parsed).toBeCloseTo(code, 9);
});

test.each([
  [1, '1'],
  [1 / 3, '1/3'],
  [5 / 3, '1 2/3'],
  [0.25, '0.25'],
  [0, '0'],
])('stopsFigure(%d) is %j, and reads back as it', (stops, words) => {
  expect(stopsFigure(stops)).toBe(words);
  expect(parseStops(words, { least: 0, most: 8 })).toBeCloseTo(stops, 12);
});

test('a slip says what was typed, what could be, and what stays', () => {
  expect(figureSlipWords('much', { least: 0, most: 5 }, 'stops', '1/3')).toBe(
    '“much” is no figure from 0 to 5\u00a0stops: 1/3 stays.',
  );
});
