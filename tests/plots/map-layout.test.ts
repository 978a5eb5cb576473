import { expect, test } from 'vitest';
import { mapLayout } from '../../src/plots/map-layout.ts';
import { sectionPlot } from '../../src/plots/section-plot.ts';
import { expectWithin } from '../expect-within.ts';
import { readingFixture } from './reading-fixture.ts';

const TOLERANCE = {
  name: '0.3 stop',
  source: 'common practice, no published source',
  measure: 'range',
  limit: 0.3,
  tintDeltaUv: 0.004,
  castDeltaUv: 0.005,
} as const;
/** Width of the section's longest figure, "0 stop", in font sizes: no digit is wider than 0.65. */
const FIGURE_WIDTH = 3.5;
/** Rooms of 320, 390 and 1440 px wide windows, by text of 16 and 32 px. */
const ROOMS = [272, 342, 770, 1328].flatMap((width) =>
  [16, 32].map((textPx) => ({ width, height: 720, textPx })),
);

test('mapLayout(room) fills its room and no more, with the figures beside the sections', () => {
  for (const room of ROOMS) {
    const layout = mapLayout(readingFixture(), room);
    expect(layout.frameWidth + 14 + layout.sectionDepth).toBeLessThanOrEqual(room.width);
    const figures = 6 + FIGURE_WIDTH * layout.smallFontSize;
    expect(layout.frameWidth + figures).toBeLessThanOrEqual(room.width);
    expect(layout.frameWidth).toBeGreaterThan(room.width / 2);
  }
});

test('mapLayout(room) never draws type under 12, and follows the reader’s text as far as the map bears it', () => {
  for (const room of ROOMS) {
    const { fontSize, smallFontSize } = mapLayout(readingFixture(), room);
    expect(Math.min(fontSize, smallFontSize)).toBeGreaterThanOrEqual(12);
    if (room.textPx === 16) expect([fontSize, smallFontSize]).toEqual([13, 12]);
    if (room.textPx === 32 && room.width > 600) expect([fontSize, smallFontSize]).toEqual([26, 24]);
  }
});

test('both sections have one scale of stops, at least two figures, and room between and round them', () => {
  let count = 0;
  for (const room of ROOMS)
    for (const fall of [0.02, 0.15, 0.31, 0.6, 0.85, 1.3, 2.4, 4.7, 8]) {
      const reading = readingFixture({ ev: (x) => -fall * x });
      const { width, height, sectionDepth: depth, smallFontSize: fontSize } = mapLayout(reading, room);
      const spot = { column: 3, row: 3 };
      const across = sectionPlot(reading, TOLERANCE, 'across', spot, { length: width, depth, fontSize });
      const down = sectionPlot(reading, TOLERANCE, 'down', spot, { length: height, depth, fontSize });
      expectWithin(across.axis.at(-0.2), down.axis.at(-0.2), 1e-9);
      for (const { axis } of [across, down]) {
        expect(axis.ticks.length).toBeGreaterThanOrEqual(2);
        expect(axis.ticks[0]!.ev).toBe(0);
        count += axis.ticks.length;
        const isAcross = axis === across.axis;
        axis.ticks.forEach(({ ev, at }, i) => {
          // a minus takes 0.85 and a point 0.35 of the type's size
          const size = (each: number) => (isAcross ? 1 : each === 0 ? 0.65 : 2.5) * fontSize;
          expect(at - size(ev) / 2).toBeGreaterThan(-1);
          expect(at + size(ev) / 2).toBeLessThanOrEqual(depth);
          const before = axis.ticks[i - 1];
          if (before) expect(at - before.at).toBeGreaterThan((size(ev) + size(before.ev)) / 2);
        });
      }
    }
  console.log(`measured: ${count} figures on ${2 * ROOMS.length * 9} sections, none on another or cut`);
});
