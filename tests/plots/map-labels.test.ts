import { expect, test } from 'vitest';
import { seededRandom } from '../../src/engine/numeric/seeded-random.ts';
import type { Reading } from '../../src/engine/reading.ts';
import type { Tolerance } from '../../src/engine/tolerance.ts';
import { clearOfLabels } from '../../src/plots/clear-of-labels.ts';
import type { ContourLabel } from '../../src/plots/contour-plot.ts';
import { drawnAtOnce } from '../../src/plots/drawn-in-steps.ts';
import { type DrawingSize, falloffPlot, type MapPlot, tintPlot } from '../../src/plots/map-plot.ts';
import { handlesRound } from '../../src/plots/map-region.ts';
import { boxCrossedBy, boxesOverlap, cornersOf } from '../../src/plots/oriented-box.ts';
import type { PlotLine } from '../../src/plots/plot-line.ts';
import { readingFixture } from './reading-fixture.ts';

/** Wide, by hand, by hand with text of twice the size, upright, and wide with text of twice the size. */
const SIZES: readonly DrawingSize[] = [
  { width: 620, height: 413, fontSize: 13 },
  { width: 256, height: 171, fontSize: 13 },
  { width: 244, height: 163, fontSize: 17 },
  { width: 240, height: 360, fontSize: 13 },
  { width: 900, height: 600, fontSize: 26 },
];
const FIELDS = 30;
const USUAL_FONT_SIZE = 13;
/** A handle's knob is at most so long. */
const KNOB = 22;

/** A field of light and tint such as sets give, and some that none gives. */
function randomReading(seed: number): { reading: Reading; tolerance: Tolerance } {
  const random = seededRandom(seed);
  const between = (least: number, most: number) => least + (most - least) * random.uniform();
  const [x0, y0, x1, y1] = [between(-0.3, 1.3), between(-0.3, 1.3), between(-0.3, 1.3), between(-0.3, 1.3)];
  const [depth, second, wave, waves] = [between(0.05, 3), between(0, 1), between(0, 0.06), between(3, 25)];
  const light = (x: number, y: number, atX: number, atY: number) =>
    1 / (0.3 + (x - atX) ** 2 + (y - atY) ** 2);
  const [du, dv, curve, grain] = [
    between(-0.012, 0.012),
    between(-0.012, 0.012),
    between(-0.01, 0.01),
    between(0, 0.0004),
  ];
  const left = between(0, 0.5);
  const top = between(0, 0.5);
  const crop = { left, top, right: left + between(0.1, 0.5), bottom: top + between(0.1, 0.5) };
  const angleDeg = between(0, 360);
  const [across, down] = [Math.cos((angleDeg * Math.PI) / 180), Math.sin((angleDeg * Math.PI) / 180)];
  const plain = readingFixture();
  const reading = readingFixture(
    {
      columns: 96,
      rows: 64,
      ev: (x, y) =>
        depth * Math.log2(light(x, y, x0, y0) + second * light(x, y, x1, y1)) +
        wave * Math.sin(waves * x) * Math.cos(waves * y),
      tint: (x, y) => [
        du * (x - 0.5) + curve * (y - 0.5) ** 2 + grain * Math.sin(90 * x + 70 * y),
        dv * (y - 0.5) + grain * Math.cos(80 * x - 60 * y),
      ],
    },
    {
      within: { share: 0.5, crop },
      gradient: {
        ...plain.gradient,
        angleDeg,
        from: { x: 0.5 - 0.7 * across, y: 0.5 - 0.7 * down },
        to: { x: 0.5 + 0.7 * across, y: 0.5 + 0.7 * down },
      },
    },
  );
  const tolerance: Tolerance = {
    name: 'a limit of one’s own',
    source: 'common practice, no published source',
    measure: 'range',
    limit: between(0.05, 1),
    tintDeltaUv: between(0.001, 0.006),
    castDeltaUv: 0.005,
  };
  return { reading, tolerance };
}

function everyPlot(size: DrawingSize): MapPlot[] {
  return Array.from({ length: FIELDS }, (_, seed) => {
    const { reading, tolerance } = randomReading(seed + 1);
    const clipped = new Float64Array(reading.grid.columns * reading.grid.rows);
    return [
      drawnAtOnce(falloffPlot(reading, tolerance, size, clipped)),
      drawnAtOnce(tintPlot(reading, tolerance, size, clipped)),
    ];
  }).flat();
}

/** The runs of points of SVG path data made of M, L, H, V and Z. */
function linesOf(path: string): PlotLine[] {
  return path
    .split('M')
    .slice(1)
    .map((run) => {
      const points = run
        .replace(/Z$/, '')
        .split('L')
        .map((pair) => pair.split(',').map(Number))
        .map(([x, y]) => [x!, y!] as const);
      return run.endsWith('Z') ? [...points, points[0]!] : points;
    });
}

/** What is left of a label's box for its figures, once the air at its ends is taken away. */
function figuresOf(label: ContourLabel) {
  return { ...label, width: label.width - 6, height: label.height - 3 };
}

for (const size of SIZES) {
  const { width, height, fontSize } = size;
  test(`no label lies on another, on a handle or across a contour at ${width} × ${height}, type ${fontSize}`, () => {
    let [labels, onMarks] = [0, 0];
    const knobs = handlesRound(size).map(([x, y]) => ({ x, y, width: KNOB, height: KNOB, angleDeg: 0 }));
    for (const { contours, cropPath, gradientPath, hottest } of everyPlot(size)) {
      const lines = contours.lines.flatMap(({ path }) => linesOf(path));
      const marks = [cropPath, gradientPath].flatMap(linesOf);
      contours.labels.forEach((label, i) => {
        labels++;
        if (marks.some((mark) => boxCrossedBy(label, mark))) onMarks++;
        for (const [x, y] of cornersOf(label))
          expect(x >= 0 && y >= 0 && x <= width && y <= height).toBe(true);
        for (const other of [...contours.labels.slice(0, i), ...knobs])
          expect(boxesOverlap(label, other)).toBe(false);
        for (const line of lines) expect(boxCrossedBy(figuresOf(label), line)).toBe(false);
        if (hottest !== null) {
          const [x, y] = hottest;
          expect(boxesOverlap(label, { x, y, width: 14, height: 14, angleDeg: 0 })).toBe(false);
        }
      });
    }
    console.log(
      `measured: ${labels} labels on ${2 * FIELDS} maps of ${width} × ${height}, type ${fontSize}: none on another, a handle ` +
        `or a contour; ${onMarks} found no place off the crop's or the ramp's line, which is broken there`,
    );
    expect(labels).toBeGreaterThan(2 * FIELDS);
    if (fontSize === USUAL_FONT_SIZE) expect(onMarks / labels).toBeLessThan(0.05);
  });
}

test('clearOfLabels(labels) leaves the labels out and all else in, by the even-odd rule', () => {
  const label = { x: 100, y: 60, width: 40, height: 14, angleDeg: -40 };
  const path = clearOfLabels([label], { width: 200, height: 120 });
  expect(path.startsWith('M0,0H200V120H0Z')).toBe(true);
  const [ring] = linesOf(path.replace('M0,0H200V120H0Z', ''));
  expect(ring).toHaveLength(5);
  for (const [i, [x, y]] of cornersOf(label).entries()) {
    expect(Math.abs(ring![i]![0] - x)).toBeLessThan(0.051);
    expect(Math.abs(ring![i]![1] - y)).toBeLessThan(0.051);
  }
  expect(clearOfLabels([], { width: 200, height: 120 })).toBe('M0,0H200V120H0Z');
});

test('the ramp’s arrow keeps its head wholly inside the drawing, clear of the handles’ knobs on its edge', () => {
  for (const size of SIZES)
    for (let seed = 1; seed <= FIELDS; seed++) {
      const { reading, tolerance } = randomReading(seed);
      const clipped = new Float64Array(reading.grid.columns * reading.grid.rows);
      const { gradientHeadPath } = drawnAtOnce(falloffPlot(reading, tolerance, size, clipped));
      const points = linesOf(gradientHeadPath).flat();
      expect(points).toHaveLength(3);
      for (const [x, y] of points) {
        expect(Math.min(x, size.width - x)).toBeGreaterThan(6);
        expect(Math.min(y, size.height - y)).toBeGreaterThan(6);
      }
    }
});
