import { expect, test } from 'vitest';
import { figuresOf, mapsOf, readingOf } from '../../src/takes/reading-maps.ts';
import { heldTake } from './held-take.ts';

test('readingOf(figures, maps) is the reading to the last bit, as it is looked at, cloned and saved', () => {
  const { reading } = heldTake('a');
  const [figures, maps] = [figuresOf(reading), mapsOf(reading)];
  const again = readingOf(figures, maps);
  expect(again).toEqual(reading);
  expect(structuredClone(again)).toEqual(reading);
  expect(JSON.parse(JSON.stringify(again))).toEqual(JSON.parse(JSON.stringify(reading)));
  expect(again.falloff.evMap).toBe(again.falloff.evMap); // one list, for what remembers by it
  expect(JSON.stringify(figures)).not.toContain('Map');
});

test('maps held as bytes take 8 bytes a cell', () => {
  const cells = Array.from({ length: 96 * 64 }, (_, i) => (i % 7 === 0 ? null : -i / 1e4));
  const { reading } = heldTake('a');
  const { ev } = mapsOf({ ...reading, falloff: { ...reading.falloff, evMap: cells } });
  expect(ev.byteLength).toBe(8 * 96 * 64);
  expect(readingOf(figuresOf(reading), { ...mapsOf(reading), ev }).falloff.evMap).toEqual(cells);
});
