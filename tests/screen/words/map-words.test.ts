import { expect, test } from 'vitest';
import type { Finding, Reading } from '../../../src/engine/reading.ts';
import type { Tolerance } from '../../../src/engine/tolerance.ts';
import { DEFAULT_TOLERANCE, TOLERANCES } from '../../../src/engine/tolerances.ts';
import { falloffPlot, type MapPlot, tintPlot } from '../../../src/plots/map-plot.ts';
import { shareInside } from '../../../src/plots/share-inside.ts';
import { spotReading } from '../../../src/plots/spot-reading.ts';
import { mapLegend, mapSummary, spotWords } from '../../../src/screen/words/map-words.ts';
import { expectWithin } from '../../expect-within.ts';
import { readingFixture } from '../../plots/reading-fixture.ts';

const spaced = (text: string) => text.replaceAll('\u00a0', ' ');
const SIZE = { width: 480, height: 320, fontSize: 14 };
const UNCLIPPED = { isClipped: false, isLowerBound: false };
const NOT_BLANK: Finding = {
  kind: 'not-blank',
  confidence: 1,
  ev: null,
  mired: null,
  at: { x: 0.5, y: 0.5 },
  says: 'Something is in the frame.',
  lengthsMm: null,
};

function drawn(mode: 'light' | 'tint', reading: Reading, tolerance: Tolerance): MapPlot {
  const none = new Float64Array(reading.grid.columns * reading.grid.rows);
  const steps = (mode === 'light' ? falloffPlot : tintPlot)(reading, tolerance, SIZE, none);
  for (;;) {
    const step = steps.next();
    if (step.done) return step.value;
  }
}

const legend = (reading: Reading, tolerance: Tolerance, mode: 'light' | 'tint' = 'light') =>
  spaced(mapLegend(mode, drawn(mode, reading, tolerance), reading, tolerance));

test('mapLegend gives the share that the tolerance’s own line encloses', () => {
  const reading = readingFixture();
  // 0.3 of 0.6 stop: half of a straight slope
  expect(legend(reading, DEFAULT_TOLERANCE)).toContain('; 50 % of the frame lies within it.');
  const all = readingFixture({ ev: (x) => -0.1 * (1 - x) });
  for (const tolerance of TOLERANCES.filter(({ measure }) => measure !== 'range')) {
    expect(legend(all, tolerance)).toMatch(/is reached nowhere; 100 % of the frame lies within it\./);
  }
  const part = { ...reading, region: { left: 0.2, top: 0.2, right: 0.8, bottom: 0.8 } };
  expect(legend(part, DEFAULT_TOLERANCE)).toContain('50 % of the part read lies within it');
});

test('shareInside(reading) counts between the two lines of a limit from the centre, and above any other', () => {
  const reading = readingFixture({ columns: 101, rows: 2, ev: (x) => -(1 - x) });
  const share = (measure: Tolerance['measure'], limit: number) =>
    shareInside(reading, { ...DEFAULT_TOLERANCE, measure, limit });
  const cell = 1.5 / 101;
  expectWithin(share('range', 0.3), 0.3, cell);
  expectWithin(share('nine-point-min-max', 0.75), -Math.log2(0.75), cell);
  expectWithin(share('from-centre', 0.1), Math.log2(1.1) - Math.log2(0.9), cell);
  expectWithin(share('min-over-mean', 0.9), -Math.log2((0.9 * 0.5) / Math.LN2), cell);
});

const PROMISES: readonly [Partial<Reading>, string][] = [
  [{}, 'Frame inside the dashed line and you are done.'],
  [
    { findings: [NOT_BLANK] },
    'The part inside the dashed line only looks even, with something standing in the frame.',
  ],
  [
    { findings: [NOT_BLANK], verdict: { even: 'yes', neutral: 'yes', exposed: 'no' } },
    'The part inside the dashed line only looks even, with something standing in the frame.',
  ],
  [{ verdict: { even: 'no', neutral: 'no', exposed: 'yes' } }, 'Inside the dashed line it is even enough.'],
  [
    { verdict: { even: 'no', neutral: 'yes', exposed: 'no' } },
    'The part inside the dashed line may only look even: expose for it and read it again.',
  ],
];
test.each(PROMISES)('mapLegend(%j) promises of the crop: %s', (change, promise) => {
  expect(legend(readingFixture({}, change), DEFAULT_TOLERANCE)).toContain(promise);
  expect(legend(readingFixture({}, change), DEFAULT_TOLERANCE).match(/dashed line/g)).toHaveLength(1);
});

test('mapLegend takes a yardstick’s name into its sentence', () => {
  const names = TOLERANCES.map((tolerance) => legend(readingFixture(), tolerance));
  for (const words of names) expect(words).not.toMatch(/your limit, \p{Lu}/u);
  expect(names.some((words) => words.includes('your limit, nine points within 75 %'))).toBe(true);
});

test('mapLegend says what the curves beside a map of tint are of', () => {
  expect(legend(readingFixture(), DEFAULT_TOLERANCE, 'tint')).toMatch(/curves .* are of the light\.$/);
});

test('mapSummary and mapLegend do not call a clipped spot the hottest', () => {
  const plain = readingFixture();
  const clipped = { ...plain, falloff: { ...plain.falloff, isLowerBound: true } };
  expect(spaced(mapSummary('light', plain))).toMatch(/^The light falls by 0\.6 stop from the .* to the /);
  expect(spaced(mapSummary('light', clipped))).toMatch(
    /^The light falls by at least 0\.6 stop from somewhere/,
  );
  expect(legend(clipped, DEFAULT_TOLERANCE)).toMatch(/^Lines every .* below what clips/);
});

test('spotWords(spot) says no more than clipping leaves known', () => {
  const reading = readingFixture({ columns: 4, rows: 2, ev: (x) => -0.8 * (0.875 - x) });
  const hottest = spotReading(reading, 3, 0);
  const down = spotReading(reading, 1, 0);
  const said = (spot: typeof down, clipping: Parameters<typeof spotWords>[1]) =>
    spaced(spotWords(spot, clipping));
  expect(said(hottest, UNCLIPPED)).toMatch(/down: as hot as the hottest ± 0\.01, /);
  expect(said(down, UNCLIPPED)).toMatch(/: 0\.40 stop down ± 0\.01, /);
  expect(said(down, { isClipped: false, isLowerBound: true })).toMatch(/: at least 0\.40 stop down, /);
  expect(said(hottest, { isClipped: false, isLowerBound: true })).toMatch(/: just below what clips, /);
  expect(said(hottest, { isClipped: true, isLowerBound: true })).toMatch(
    /down: clipped, hotter than this frame can show$/,
  );
});
