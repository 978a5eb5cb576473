import { beforeAll, describe, expect, test } from 'vitest';
import { movableStudio } from '../../synthetic/random/movable-studio.ts';
import { playRounds } from './play-rounds.ts';
import { ROUND_TARGETS, type RoundsFigures, roundsFigures, roundsLines } from './rounds-lines.ts';
import { type RoundsScore, scoreRounds } from './score-rounds.ts';

/** A few of the 100 studios of each arrangement that `npm run bench` plays through. */
const SEEDS = [3, 7, 13, 20];

describe.each(['behind-sheet', 'bounced', 'two-lamps'] as const)('rounds at a set %s', (arrangement) => {
  let scores: RoundsScore[];
  let figures: RoundsFigures;

  beforeAll(async () => {
    scores = [];
    for (const seed of SEEDS) {
      const rules = { rounds: 3, writes: '16 bit', isMeasured: true } as const;
      scores.push(scoreRounds(await playRounds(movableStudio(seed, arrangement), rules)));
    }
    figures = roundsFigures(scores);
    for (const line of roundsLines(arrangement, scores)) console.log(line);
  }, 300_000);

  test('end within 0.10 EV of the best placement in the room, or below 0.15 EV', () => {
    expect(figures.reached.count, roundsLines(arrangement, scores).join('\n')).toBe(SEEDS.length);
  });

  test('never make it worse by over 0.05 EV', () => {
    expect(Math.max(...scores.flatMap(({ worseEv }) => worseEv))).toBeLessThanOrEqual(ROUND_TARGETS.worseEv);
  });

  test('come out as foretold, but for one at most', () => {
    expect(figures.predicted.of).toBeGreaterThanOrEqual(SEEDS.length);
    expect(figures.predicted.count).toBeGreaterThanOrEqual(figures.predicted.of - 1);
  });
});
