import { expect, test } from 'vitest';
import { lengthWords } from '../../../src/screen/words/length-words.ts';
import { parseLength, slipWords } from '../../../src/screen/words/parse-length.ts';
import { expectWithin } from '../../expect-within.ts';

test('parseLength(text) reads a figure in the unit spoken, or with a unit of its own as people write it', () => {
  for (const [text, mm] of [
    ['42', 420],
    [' 42,5 cm ', 425],
    ['.5', 5],
    ['60 centimetres', 600],
    ['60 Centimeters', 600],
    ['1.5 m', 1500],
    ['2 metres', 2000],
    ['60 mm', 60],
    ['16.5 in', 419.1],
    ['10"', 254],
    ['24”', 609.6],
    ['24 inches', 609.6],
    ['1 inch', 25.4],
    ['5 feet', 1524],
    ['1 foot', 304.8],
    ['2′', 609.6],
    ['2 ft 3 in', 685.8],
    ['2’3”', 685.8],
  ] as const)
    expectWithin(parseLength(text, 'cm') ?? Number.NaN, mm, 1e-9);
  expect(parseLength('10 cm', 'in')).toBe(100);
  expectWithin(parseLength('10', 'in')!, 254, 1e-9);
});

test('parseLength(text) takes nothing else, nothing below the least, and nothing larger than any set', () => {
  for (const text of [
    '',
    'far',
    '-3',
    '1e3',
    '5 yards',
    '2 in 3 ft',
    '1.2.3',
    'NaN',
    '0',
    '0 cm',
    '100000000',
  ])
    expect(parseLength(text, 'cm'), text).toBeNull();
  expect(parseLength('0', 'cm', 0)).toBe(0);
  expect(parseLength('-1', 'cm', 0)).toBeNull();
});

test('parseLength(lengthWords(mm)) comes back to within a twentieth of the unit', () => {
  for (const unit of ['cm', 'in'] as const)
    for (const mm of [7, 123.4, 600, 2500]) {
      const tenth = unit === 'cm' ? 1 : 2.54;
      expectWithin(parseLength(lengthWords(mm, unit), unit)!, mm, tenth / 2 + 1e-9);
    }
});

test('slipWords(typed, kept) says what was typed and what stays', () => {
  expect(slipWords('far', '60 cm')).toBe(
    '“far” is no length: 60 cm stays. A figure is enough, or one with cm, m, in or ft.',
  );
});
