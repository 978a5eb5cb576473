import { expect, test } from 'vitest';
import { cellsCsv } from '../../src/screen/cells-csv.ts';
import { readingFixture } from '../plots/reading-fixture.ts';

test('cellsCsv(reading) has a line for every cell, at its place, and nothing for what was not measured', () => {
  const reading = readingFixture({ columns: 4, rows: 3 });
  const evMap = reading.falloff.evMap.map((ev, i) => (i === 6 ? null : ev));
  const region = { left: 0.2, top: 0, right: 1, bottom: 0.6 };
  const lines = cellsCsv({ ...reading, region, falloff: { ...reading.falloff, evMap } }).split('\r\n');
  expect(lines).toHaveLength(1 + 12 + 1);
  expect(lines[0]).toBe('column,row,x,y,ev,u_prime,v_prime');
  const cells = lines.slice(1, 13).map((line) => line.split(','));
  for (const cell of cells) expect(cell).toHaveLength(7);
  expect(cells[6]!.slice(0, 5)).toEqual(['2', '1', '0.70000', '0.30000', '']);
  expect(Number(cells[7]![4])).toBeCloseTo(evMap[7]!, 4);
  expect(Number(cells[7]![5])).toBeCloseTo(reading.tint.uPrimeMap[7]!, 5);
  expect(lines.at(-1)).toBe('');
});
