import { beforeAll, describe, expect, test } from 'vitest';
import { figureLines, TARGETS } from './figure-lines.ts';
import { scoreSeed } from './score-seed.ts';
import type { StudioScore } from './score-studio.ts';
import { studioFaults } from './studio-faults.ts';
import { type StudioFigures, shareOf, studioFigures, worst } from './studio-figures.ts';

/** Every tenth of the 200 studios that `playwright test --project=bench studios` reads: all arrangements, ten kinds of leading cause. */
const SEEDS = Array.from({ length: 20 }, (_, i) => 10 * (i + 1));

/**
 * Of 36 places that a ± of 95 % covers, chance leaves fewer than 80 % inside once in 3000 samples (binomial); the
 * places of one frame err together, so somewhat more often. All 200 studios are held to 92 to 98 %.
 */
const LEAST_COVERED = 0.8;

describe('every tenth drawn studio', () => {
  let scores: StudioScore[];
  let figures: StudioFigures;

  beforeAll(async () => {
    scores = [];
    for (const seed of SEEDS) scores.push(await scoreSeed(seed));
    figures = studioFigures(scores);
    for (const line of [...studioFaults(scores), ...figureLines(figures)]) console.log(line);
  }, 600_000);

  test('has its strongest cause named first in 90 % and more', () => {
    expect(shareOf(figures.named), studioFaults(scores).join('\n')).toBeGreaterThanOrEqual(TARGETS.named);
  });

  test('is told at most 5 % of the causes that are not there', () => {
    const told = scores.flatMap(({ seed, falseCauses }) =>
      falseCauses.told.map((kind) => `${seed}: ${kind}`),
    );
    expect(shareOf(figures.falseCauses), told.join(', ')).toBeLessThanOrEqual(TARGETS.falseCauses);
    expect(shareOf(figures.falseTextures)).toBeLessThanOrEqual(TARGETS.falseCauses);
  });

  test('has its lights within the ± of their places', () => {
    expect(shareOf(figures.placesWithinPlusMinus)).toBeGreaterThanOrEqual(LEAST_COVERED);
  });

  test.each([
    ['spill’s share with the lights off', 'spillWithLightsOff'],
    ['lens’s loss in the corners with the camera slid', 'lensEv'],
    ['period of bands', 'bandPeriod'],
    ['unequal colour of two lights', 'unequalColourMired'],
  ] as const)('has its %s told within the target', (_, figure) => {
    expect(figures[figure]).not.toHaveLength(0);
    expect(worst(figures[figure])).toBeLessThanOrEqual(TARGETS[figure]);
  });
});
