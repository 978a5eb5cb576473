import { expect, test } from 'vitest';
import { compareReadings } from '../../src/engine/compare/compare-readings.ts';
import type { Reading } from '../../src/engine/reading.ts';
import { differenceSize, lightDifferencePlot, tintDifferencePlot } from '../../src/plots/difference-plot.ts';
import { drawnAtOnce } from '../../src/plots/drawn-in-steps.ts';
import { readingFixture } from './reading-fixture.ts';

const SIZE = { width: 480, height: 320, fontSize: 13 };

function plotOf(now: Reading, before: Reading) {
  const compared = compareReadings(now, before);
  if (typeof compared === 'string') throw new Error(compared);
  return drawnAtOnce(lightDifferencePlot(compared, SIZE));
}

const flat = readingFixture({ ev: () => 0 });

test('the line of no change is the one bold line, and the others are signed', () => {
  const plot = plotOf(readingFixture({ ev: (x) => x }), flat);
  const bold = plot.contours.lines.filter(({ isTolerance }) => isTolerance);
  expect(bold.map(({ level }) => level)).toEqual([0]);
  expect(bold[0]!.path.startsWith('M240,')).toBe(true); // halfway across
  expect(new Set(plot.contours.labels.map(({ text }) => text))).toEqual(
    new Set(['−0.4', '−0.3', '−0.2', '−0.1', '0', '+0.1', '+0.2', '+0.3', '+0.4']),
  );
});

test('what lost is hatched and darker, what gained is lighter, in equal steps', () => {
  const plot = plotOf(
    readingFixture({ columns: 5, rows: 4, ev: (x) => 0.8 * x }),
    readingFixture({ columns: 5, rows: 4, ev: () => 0 }),
  );
  const greys = [0, 1, 2, 3, 4].map((column) => plot.picture.rgba[column * 4]!);
  expect(greys).toEqual([...greys].sort((a, b) => a - b));
  expect(plot.reachEv).toBe(0.5);
  expect(plot.lowerPath).toBe('M0,0H192V80H0ZM0,80H192V160H0ZM0,160H192V240H0ZM0,240H192V320H0Z');
});

test('small changes get finer lines; what lies within the ± gets none', () => {
  const small = plotOf(readingFixture({ ev: (x) => 0.08 * x }), flat);
  expect(small.contours.labels.map(({ text }) => text)).toContain('+0.02');
  const none = plotOf(readingFixture({ ev: (x) => 0.01 * x }), flat);
  expect(none.contours.lines).toEqual([]);
  expect(none.lowerPath).toBe('');
});

test('holes are hatched as not measured and neither lost nor gained', () => {
  const plot = plotOf(readingFixture({ ev: (x) => (x < 0.5 ? null : x) }), flat);
  expect(plot.hatchedPath.startsWith('M0,0H240V10')).toBe(true);
  expect(plot.picture.rgba[3]).toBe(0);
});

test('the tint’s change is drawn strengthened, and states by how much', () => {
  const now = readingFixture({ tint: (x) => [0.002 * x, 0] });
  const compared = compareReadings(now, readingFixture());
  if (typeof compared === 'string') throw new Error(compared);
  const plot = drawnAtOnce(tintDifferencePlot(compared, 0.0005, SIZE));
  expect(plot.picture.strengthened).toBe(20);
  expect(plot.contours.lines.filter(({ isTolerance }) => isTolerance).map(({ level }) => level)).toEqual([
    0.0005,
  ]);
  // redder at the right, less red at the left, and as dark as each other
  const at = (column: number) => [...plot.picture.rgba.slice(column * 4, column * 4 + 3)];
  expect(at(47)[0]! - at(47)[1]!).toBeGreaterThan(10);
  expect(at(0)[0]! - at(0)[1]!).toBeLessThan(-10);
});

test('the drawing has the shape of the part compared', () => {
  const frame = { widthPx: 6000, heightPx: 4000 };
  const region = { left: 0, top: 0, right: 0.5, bottom: 1 };
  expect(differenceSize({ region }, frame, { width: 600, height: 400 })).toMatchObject({
    width: 300,
    height: 400,
  });
  expect(differenceSize({ region }, frame, { width: 150, height: 400 })).toMatchObject({
    width: 150,
    height: 200,
  });
});
