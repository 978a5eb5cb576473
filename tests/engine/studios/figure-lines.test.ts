import { expect, test } from 'vitest';
import { figureLines } from './figure-lines.ts';
import type { StudioScore } from './score-studio.ts';
import { studioFigures } from './studio-figures.ts';

/** A studio of two lights read without a fault. */
const FAULTLESS: StudioScore = {
  seed: 1,
  lead: 'bands',
  named: 'outright',
  falseCauses: { told: [], possible: ['off-centre'] },
  falseTextures: { told: [], possible: ['weave'] },
  places: Array.from({ length: 10 }, () => ({
    rightWidths: 0.03,
    downWidths: -0.04,
    plusMinusRight: 0.05,
    plusMinusDown: 0.05,
  })),
  spill: { fromOneFrame: 0.1, withLightsOff: 0.01 },
  lensEv: -0.02,
  bandPeriod: 0.001,
  unequalColourMired: -3,
  fitMs: 100,
};
const missing = (change: Partial<StudioScore>) =>
  figureLines(studioFigures([FAULTLESS, { ...FAULTLESS, ...change }]))
    .filter((line) => line.startsWith('measured: misses'))
    .map((line) => line.split('|')[1]!.split(':')[0]!.trim());

/** One of twenty places outside its ±, which is what a ± of 95 % means. */
const ONE_OUTSIDE = FAULTLESS.places.map((place, i) =>
  i === 0 ? { ...place, plusMinusRight: 0.02, plusMinusDown: 0.03 } : place,
);

test('a figure that keeps its target holds', () => {
  expect(missing({ places: ONE_OUTSIDE })).toEqual([]);
});

test.each<[string, Partial<StudioScore>]>([
  ['strongest cause named first', { named: 'not' }],
  ['causes told that are not there', { falseCauses: { told: ['off-centre'], possible: ['off-centre'] } }],
  [
    'creases, weave and specks that are not there',
    { falseTextures: { told: ['weave'], possible: ['weave'] } },
  ],
  [
    'spill’s share from one frame, where it is claimed (can’t tell 0 more)',
    { spill: { fromOneFrame: -0.21, withLightsOff: 0 } },
  ],
  ['spill’s share with the lights off', { spill: { fromOneFrame: null, withLightsOff: 0.06 } }],
  ['lens’s loss in the corners with the camera slid', { lensEv: -0.06 }],
  ['period of bands', { bandPeriod: Number.POSITIVE_INFINITY }],
  ['unequal colour of two lights', { unequalColourMired: 10.5 }],
  ['processor time of fit and findings', { fitMs: 251 }],
])('%s misses where one studio does', (name, change) => {
  expect(missing({ places: ONE_OUTSIDE, ...change })).toEqual([name]);
});

test('± of places misses both where it covers too few and where it covers all', () => {
  expect(missing({})).toEqual(['± of places']);
  const outside = FAULTLESS.places.map((place) => ({ ...place, plusMinusRight: 0.02 }));
  expect(missing({ places: outside })).toEqual(['± of places']);
});

test('a light too far from its place misses', () => {
  const places = ONE_OUTSIDE.with(1, { ...ONE_OUTSIDE[1]!, rightWidths: 0.08, plusMinusRight: 0.1 });
  expect(missing({ places })).toEqual(['place of a light']);
  const claimed = places.with(1, { ...places[1]!, plusMinusRight: 0.05, plusMinusDown: 0.06 });
  expect(missing({ places: claimed })).toContain('place of a light whose own ± is within the target');
});

test('a figure of which there is none neither holds nor misses', () => {
  const none = { ...FAULTLESS, lensEv: null, places: ONE_OUTSIDE };
  const lines = figureLines(studioFigures([none]));
  expect(lines.find((line) => line.includes('lens’s loss'))).toContain(
    'none   | lens’s loss in the corners with the camera slid: none',
  );
});
