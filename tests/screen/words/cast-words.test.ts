import { expect, test } from 'vitest';
import { DEFAULT_TOLERANCE } from '../../../src/engine/tolerances.ts';
import { castSummary, gradientFigures } from '../../../src/screen/words/cast-words.ts';
import { readingFixture } from '../../plots/reading-fixture.ts';

const ROWS: readonly [deltaUv: number, plusMinusDeltaUv: number, string][] = [
  [0.003, 0.0003, '0.0030 ± 0.0003 Δu′v′ from white, inside the limit of 0.0047.'],
  [
    0.0046,
    0.0003,
    '0.0046 ± 0.0003 Δu′v′ from white, too close to the limit of 0.0047 to say whether inside.',
  ],
  [
    0.0049,
    0.0003,
    '0.0049 ± 0.0003 Δu′v′ from white, too close to the limit of 0.0047 to say whether inside.',
  ],
  [0.006, 0.0003, '0.0060 ± 0.0003 Δu′v′ from white, outside the limit of 0.0047.'],
];
test.each(ROWS)(
  'castSummary of a cast of %f ± %f goes by its ± as the verdict does',
  (deltaUv, plusMinusDeltaUv, says) => {
    const plain = readingFixture();
    const reading = { ...plain, cast: { ...plain.cast, deltaUv, plusMinusDeltaUv } };
    const summary = castSummary(reading, DEFAULT_TOLERANCE).replaceAll('\u00a0', ' ');
    expect(summary).toBe(`The mean of the frame lies ${says}`);
  },
);

test('gradientFigures(gradient) tells no ramp that is below its ± or below half a tenth', () => {
  const { gradient } = readingFixture();
  expect(gradientFigures(gradient)?.map(([name]) => name)).toEqual([
    'Angle',
    'From',
    'To',
    'Light',
    'Warmth',
    'Green–magenta',
  ]);
  const warmth = Object.fromEntries(
    gradientFigures({ ...gradient, mired: 11.1, plusMinusMired: 0.1 })!,
  ).Warmth;
  expect(warmth?.replaceAll('\u00a0', ' ')).toBe('+11.1 mired ± 0.1 (about 320 K at 5500 K)');
  expect(gradientFigures({ ...gradient, ev: 0.05 })).not.toBeNull();
  expect(gradientFigures({ ...gradient, ev: 0.049 })).toBeNull();
  expect(gradientFigures({ ...gradient, plusMinusEv: 0.6 })).toBeNull();
  expect(gradientFigures({ ...gradient, angleDeg: null })).toBeNull();
});
