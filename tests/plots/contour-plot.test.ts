import { expect, test } from 'vitest';
import { cellMap } from '../../src/plots/cell-map.ts';
import { contourLevels } from '../../src/plots/contour-levels.ts';
import { type ContourPlot, contourPlot } from '../../src/plots/contour-plot.ts';
import { drawnAtOnce } from '../../src/plots/drawn-in-steps.ts';
import { boxesOverlap } from '../../src/plots/oriented-box.ts';
import { readingFixture } from './reading-fixture.ts';
import { expectStoredPicture } from './stored-picture.ts';

const HOT_SPOT = (x: number, y: number) => -2.2 * ((x - 0.42) ** 2 + 0.5 * (y - 0.35) ** 2);
const TWO_LIGHTS = (x: number, y: number) =>
  Math.log2(1 / (0.2 + (x - 0.1) ** 2 + (y - 0.5) ** 2) + 0.7 / (0.2 + (x - 0.9) ** 2 + (y - 0.4) ** 2));

function plotOf(ev: (x: number, y: number) => number | null, toleranceEv = 0.3): ContourPlot {
  const reading = readingFixture({ ev });
  return drawnAtOnce(
    contourPlot(cellMap(reading.grid, reading.falloff.evMap), {
      width: 720,
      height: 480,
      unit: 0.1,
      toleranceLevels: [-toleranceEv],
      labelOf: (level) => level.toFixed(1).replace('-', '−'),
      fontSize: 13,
    }),
  );
}

function drawing({ lines, labels }: ContourPlot): string {
  return [
    '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 720 480" fill="none" stroke="black" font-size="13">',
    '<title>Contours of a falloff map</title>',
    ...lines.map((line) => `<path d="${line.path}" stroke-width="${line.isTolerance ? 3 : 1}"/>`),
    ...labels.map(
      ({ x, y, angleDeg, text }) =>
        `<text transform="translate(${x.toFixed(1)} ${y.toFixed(1)}) rotate(${angleDeg.toFixed(1)})" text-anchor="middle" dy="0.35em" fill="black" stroke="none">${text}</text>`,
    ),
    '</svg>',
    '',
  ].join('\n');
}

for (const [name, ev] of [
  ['hot-spot', HOT_SPOT],
  ['two-lights', TWO_LIGHTS],
  ['slope', (x: number, y: number) => -1.1 * x - 0.4 * y],
  ['hole', (x: number, y: number) => (Math.hypot(x - 0.5, y - 0.5) < 0.15 ? null : HOT_SPOT(x, y))],
] as const)
  test(`contourPlot(${name}) draws the stored picture`, () => {
    expectStoredPicture(`contours-${name}`, drawing(plotOf(ev)));
  });

test('contourPlot(map) never lets two labels overlap, and keeps every label upright and in the frame', () => {
  let count = 0;
  for (let k = 0; k < 24; k++) {
    const ev = (x: number, y: number) =>
      -0.1 * (k + 1) * ((x - k / 24) ** 2 + (y - 0.4) ** 2) + 0.05 * Math.sin(k + 9 * x) * Math.cos(7 * y);
    const { labels } = plotOf(ev, 0.05 * (k % 7) + 0.1);
    count += labels.length;
    labels.forEach((label, i) => {
      expect(label.angleDeg).toBeGreaterThan(-100.001);
      expect(label.angleDeg).toBeLessThan(80.001);
      expect(label.x > 0 && label.x < 720 && label.y > 0 && label.y < 480).toBe(true);
      for (const other of labels.slice(0, i)) expect(boxesOverlap(label, other)).toBe(false);
    });
  }
  console.log(`measured: ${count} labels on 24 maps, none overlapping`);
  expect(count).toBeGreaterThan(40);
});

test('contourPlot(map) marks the tolerance, draws it last, and drops a line that it would crowd', () => {
  const { lines } = plotOf((x) => -1.2 * x, 0.32);
  expect(lines.at(-1)).toMatchObject({ level: -0.32, isTolerance: true });
  expect(lines.filter((line) => line.isTolerance)).toHaveLength(1);
  expect(lines.some((line) => Math.abs(line.level + 0.3) < 1e-9)).toBe(false);
});

test('contourLevels(map) are tenths, thinned where they would crowd', () => {
  const map = (fall: number) => {
    const reading = readingFixture({ ev: (x) => -fall * x });
    return cellMap(reading.grid, reading.falloff.evMap);
  };
  const spacing = { unit: 0.1, cellSize: 15, leastSpacing: 20 };
  expect(contourLevels(map(0.52), spacing).levels).toEqual([-0.5, -0.4, -0.3, -0.2, -0.1]);
  expect(contourLevels(map(6), spacing).step).toBe(0.2);
  expect(contourLevels(map(30), spacing).step).toBe(1);
  expect(contourLevels(map(0.05), spacing).levels).toEqual([]);
});
