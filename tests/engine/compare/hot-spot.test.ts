import { expect, test } from 'vitest';
import { hotSpot } from '../../../src/engine/compare/hot-spot.ts';
import { expectWithin } from '../../expect-within.ts';
import { readingFixture } from '../../plots/reading-fixture.ts';

/** Of the frame of 1200 × 800: distances in frame widths. */
const away = (x: number, y: number, atX = 0.5, atY = 0.5) => Math.hypot(x - atX, (y - atY) / 1.5);

test('a spot of known height stands by that over its surroundings', () => {
  for (const height of [0.1, 0.5, 1.5]) {
    const reading = readingFixture({ columns: 96, rows: 64, ev: (x, y) => (away(x, y) < 0.06 ? height : 0) });
    // where its brightest cell lies does not matter: the middle of it was found
    const found = hotSpot({ ...reading, falloff: { ...reading.falloff, brightestAt: { x: 0.5, y: 0.5 } } })!;
    expectWithin(found.ev, height, 1e-9);
    expect(found.plusMinusEv).toBe(reading.falloff.cellPlusMinusEv);
  }
});

test('a falloff across the frame has hardly any hot spot, an equal one on a narrow spot has nearly all of it', () => {
  const broad = readingFixture({ columns: 96, rows: 64, ev: (x, y) => -(away(x, y) ** 2) / 0.36 });
  const narrow = readingFixture({
    columns: 96,
    rows: 64,
    ev: (x, y) => Math.exp(-((away(x, y) / 0.07) ** 2)),
  });
  const [low, high] = [hotSpot(broad)!.ev, hotSpot(narrow)!.ev];
  console.log(
    `measured: of one stop, a broad falloff has a hot spot of ${low.toFixed(2)}, a narrow one of ${high.toFixed(2)}`,
  );
  expect(low).toBeLessThan(0.12);
  expect(high).toBeGreaterThan(0.7);
});

test('turned frames read alike', () => {
  const field = (x: number, y: number) => Math.exp(-((away(x, y, 0.4, 0.55) / 0.1) ** 2));
  const level = readingFixture({ columns: 96, rows: 64, ev: field });
  const turned = readingFixture({ columns: 64, rows: 96, ev: (x, y) => field(y, x) });
  const upright = { ...turned, frame: { ...turned.frame, widthPx: 800, heightPx: 1200 } };
  expectWithin(hotSpot(upright)!.ev, hotSpot(level)!.ev, 0.001); // cells on the very edge of the ring fall in or out by rounding
});

test('a spot in the corner, and a clipped one, is not told', () => {
  const corner = readingFixture({ columns: 96, rows: 64, ev: (x, y) => -away(x, y, 0, 0) });
  expect(hotSpot(corner)).toBeNull();
  const edge = readingFixture({ columns: 96, rows: 64, ev: (x, y) => -away(x, y, 0.5, 0) });
  expect(hotSpot(edge)).not.toBeNull();
  expect(hotSpot({ ...edge, falloff: { ...edge.falloff, isLowerBound: true } })).toBeNull();
});
