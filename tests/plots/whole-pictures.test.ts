import { expect, test } from 'vitest';
import type { Tolerance } from '../../src/engine/tolerance.ts';
import { drawnAtOnce } from '../../src/plots/drawn-in-steps.ts';
import { falloffPlot, type MapPlot, tintPlot } from '../../src/plots/map-plot.ts';
import { sectionPlot } from '../../src/plots/section-plot.ts';
import { readingFixture } from './reading-fixture.ts';
import { expectStoredPicture } from './stored-picture.ts';

const SIZE = { width: 360, height: 240, fontSize: 13 };
const TOLERANCE: Tolerance = {
  name: '0.3 stop',
  source: 'common practice, no published source',
  measure: 'range',
  limit: 0.3,
  tintDeltaUv: 0.004,
  castDeltaUv: 0.005,
};
/** One side darker and cooler, with a hole near the bottom. */
const READING = readingFixture({
  ev: (x, y) => (Math.hypot(x - 0.3, y - 0.85) < 0.06 ? null : -0.9 * (x - 0.2) ** 2 - 0.5 * (y - 0.4) ** 2),
  tint: (x, y) => [-0.006 * x, -0.009 * x + 0.001 * y],
});
const UNCLIPPED = new Float64Array(READING.grid.columns * READING.grid.rows);

/** All that is drawn over the picture, and of the picture one pixel in a hundred, as sRGB codes. */
function drawing(title: string, plot: MapPlot): string {
  const { contours, picture, hottest } = plot;
  const { width, height, fontSize } = SIZE;
  const pixels = Array.from({ length: Math.ceil(picture.rgba.length / 400) }, (_, i) =>
    picture.rgba.slice(i * 400, i * 400 + 4).join(' '),
  );
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${width} ${height}" fill="none" stroke="black" font-size="${fontSize}">`,
    `<title>${title}</title>`,
    `<desc>Strengthened ${picture.strengthened} times; every hundredth pixel: ${pixels.join(', ')}</desc>`,
    `<clipPath id="clear"><path d="${plot.clearPath}" clip-rule="evenodd"/></clipPath>`,
    `<path d="${plot.hatchedPath}" fill="silver" stroke="none" clip-path="url(#clear)"/>`,
    ...contours.lines.map((line) => `<path d="${line.path}" stroke-width="${line.isTolerance ? 3 : 1}"/>`),
    ...contours.labels.map(
      ({ x, y, angleDeg, text }) =>
        `<text transform="translate(${x.toFixed(1)} ${y.toFixed(1)}) rotate(${angleDeg.toFixed(1)})" text-anchor="middle" dy="0.36em" fill="black" stroke="none">${text}</text>`,
    ),
    '<g clip-path="url(#clear)">',
    `<path d="${plot.cropPath}" stroke-dasharray="7 5"/>`,
    `<path d="${plot.gradientPath}" stroke-dasharray="1 4"/><path d="${plot.gradientHeadPath}"/>`,
    ...(hottest === null
      ? []
      : [`<circle cx="${hottest[0].toFixed(1)}" cy="${hottest[1].toFixed(1)}" r="3"/>`]),
    '</g>',
    '</svg>',
    '',
  ].join('\n');
}

test('falloffPlot(reading) draws the stored picture', () => {
  const plot = drawnAtOnce(falloffPlot(READING, TOLERANCE, SIZE, UNCLIPPED));
  expect(plot.hatchedPath).not.toBe('');
  expectStoredPicture('map-of-light', drawing('The map of the light', plot));
});

test('tintPlot(reading) draws the stored picture', () => {
  const plot = drawnAtOnce(tintPlot(READING, TOLERANCE, SIZE, UNCLIPPED));
  expectStoredPicture('map-of-tint', drawing('The map of the tint', plot));
});

test('sectionPlot(reading) draws the stored picture, across and down', () => {
  const spot = { column: 14, row: 27 };
  const size = { depth: 72, fontSize: 12 };
  const [across, down] = [
    sectionPlot(READING, TOLERANCE, 'across', spot, { length: SIZE.width, ...size }),
    sectionPlot(READING, TOLERANCE, 'down', spot, { length: SIZE.height, ...size }),
  ];
  const figures = ({ axis, toleranceAt, spotAt, fallEv }: typeof across) =>
    [
      `ticks ${axis.ticks.map(({ ev, at }) => `${ev} at ${at.toFixed(1)}`).join(', ')}`,
      `tolerance at ${toleranceAt.map((at) => at.toFixed(1))}; spot at ${spotAt.toFixed(1)}; fall ${fallEv.toFixed(3)}`,
    ].join('; ');
  const svg = [
    '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 446 326" fill="none" stroke="black">',
    '<title>The cross-sections along the bottom and the right edge of a map</title>',
    `<desc>Across: ${figures(across)}. Down: ${figures(down)}.</desc>`,
    `<path transform="translate(0 254)" d="${across.path}"/>`,
    `<path transform="translate(374 0)" d="${down.path}"/>`,
    '</svg>',
    '',
  ].join('\n');
  expectStoredPicture('sections', svg);
});
