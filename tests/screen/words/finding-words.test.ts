import { expect, test } from 'vitest';
import type { Finding } from '../../../src/engine/reading.ts';
import { findingAside, findingSays, sureness } from '../../../src/screen/words/finding-words.ts';

const PLAIN: Finding = {
  ...{ kind: 'slope', confidence: 0.8, ev: null, mired: null, at: null, says: '' },
  lengthsMm: null,
};

const ASIDES: readonly [Partial<Finding>, string][] = [
  [{}, 'likely'],
  [{ ev: 0.42 }, 'likely, explains 0.4 stop'],
  [{ ev: 0.04 }, 'likely'],
  [{ ev: -0.04 }, 'likely'],
  [
    { ev: -0.725, at: { x: 0.98, y: 0.5 } },
    'likely; without it the spread would be 0.7 stop larger; seen at the right edge',
  ],
  [{ confidence: 0.99, at: { x: 0.02, y: 0.5 } }, 'nearly certain; seen at the left edge'],
  [{ confidence: 0.6, at: { x: 0.02, y: 0.02 } }, 'more likely than not; seen in the top left corner'],
  [
    { confidence: 0.2, ev: 1.24, at: { x: 0.5, y: 0.4 } },
    'possible, explains 1.2 stops; seen just above centre',
  ],
];
for (const [change, aside] of ASIDES)
  test(`findingAside says: ${aside}`, () => {
    expect(findingAside({ ...PLAIN, ...change }).replaceAll('\u00a0', ' ')).toBe(aside);
  });

test('findingAside adds nothing to what can’t be told', () => {
  expect(findingAside({ ...PLAIN, kind: 'cannot-tell', confidence: 0.99, ev: 1.2 })).toBe('');
});

test('findingAside tells the place within the part that was read', () => {
  const region = { left: 0, top: 0, right: 0.2, bottom: 0.2 };
  expect(findingAside({ ...PLAIN, at: { x: 0.19, y: 0.1 } }, region)).toBe('likely; seen at the right edge');
});

test('findingSays tells lengths in the unit of the page', () => {
  const says = 'The light stands about 10 cm to the left of the frame’s centre (give or take 2 cm).';
  expect(findingSays({ says }, 'cm')).toBe(says);
  expect(findingSays({ says }, 'in')).toBe(
    'The light stands about 3.9 in to the left of the frame’s centre (give or take 0.8 in).',
  );
  expect(findingSays({ says: 'Down by 0.4 stop.', lengthsMm: null }, 'in')).toBe('Down by 0.4 stop.');
});

test('findingSays rounds a length in inches once, from what the engine did not round', () => {
  const says = 'The light stands about 6 cm below the frame’s centre (give or take 1 cm).';
  expect(findingSays({ says, lengthsMm: [64.9, 0.4] }, 'in')).toBe(
    'The light stands about 2.6 in below the frame’s centre (give or take 0.1 in).',
  );
  expect(findingSays({ says, lengthsMm: [64.9, 0.4] }, 'cm')).toBe(says);
});

test('sureness(confidence) never says more than the figure does, and goes up with it', () => {
  const words = [0, 0.49, 0.5, 0.74, 0.75, 0.94, 0.95, 1].map(sureness);
  expect([...new Set(words)]).toEqual(['possible', 'more likely than not', 'likely', 'nearly certain']);
});
