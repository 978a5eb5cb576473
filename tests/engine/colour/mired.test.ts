import { expect, test } from 'vitest';
import { kelvinToMired, miredToKelvin } from '../../../src/engine/colour/mired.ts';
import { expectWithin } from '../../expect-within.ts';
import { numberIn, readTable } from '../../published/read-table.ts';

// Source: IES definition 4.6.4.3 and the tests of github.com/colour-science/colour.
test.each([
  [3200, 312.5],
  [6500, 153.846154],
  [15_000, 66.666667],
])('kelvinToMired(%i) is %f', (kelvin, mired) => {
  expectWithin(kelvinToMired(kelvin), mired, 0.5e-6);
  expectWithin(miredToKelvin(kelvinToMired(kelvin)), kelvin, 1e-9);
});

const filters = readTable('mired-filters');

test('the table of filters is whole', () => {
  expect(filters.length).toBe(17);
});

test.each(filters)('filter $filter shifts $handbook_conversion by $mired_shift mired', (row) => {
  const [from, to] = row.handbook_conversion!.split('->').map(Number);
  const shift = kelvinToMired(to!) - kelvinToMired(from!);
  expectWithin(shift, numberIn(row, 'mired_shift'), 1);
  expectWithin(shift, numberIn(row, 'check_mired_from_conversion'), 0.05 + 1e-9);
});
