import { beforeAll, describe, expect, test } from 'vitest';
import { movableStudio } from '../../synthetic/random/movable-studio.ts';
import { playRounds } from './play-rounds.ts';
import { ROUND_TARGETS, type RoundsFigures, roundsFigures, roundsLines, type Share } from './rounds-lines.ts';
import { type RoundsScore, scoreRounds } from './score-rounds.ts';

/** Every 25th of the 100 studios of each arrangement that `playwright test --project=bench moves` plays through. */
const SEEDS = [25, 50, 75, 100];
const ARRANGEMENTS = ['behind-sheet', 'bounced', 'two-lamps'] as const;

describe('three rounds in every 25th drawn studio', () => {
  let scores: RoundsScore[];
  let figures: RoundsFigures;

  beforeAll(async () => {
    scores = [];
    for (const arrangement of ARRANGEMENTS)
      for (const seed of SEEDS) {
        const rules = { rounds: 3, writes: '16 bit', isMeasured: true } as const;
        scores.push(scoreRounds(await playRounds(movableStudio(seed, arrangement), rules)));
      }
    figures = roundsFigures(scores);
    for (const line of roundsLines('every 25th', scores)) console.log(line);
  }, 600_000);

  test('leave 90 % and more within 0.10 EV of the best placement in the room, or below 0.15 EV', () => {
    const lines = roundsLines('', scores).join('\n');
    expect(shareOf(figures.reached), lines).toBeGreaterThanOrEqual(ROUND_TARGETS.reached);
  });

  test('make it no worse by over 0.05 EV', () => {
    expect(figures.notWorse.of).toBeGreaterThan(SEEDS.length);
    expect(shareOf(figures.notWorse)).toBeGreaterThanOrEqual(ROUND_TARGETS.notWorse);
  });

  test('come out within 0.15 EV of what was foretold in 85 % and more', () => {
    expect(figures.predicted.of).toBeGreaterThan(SEEDS.length);
    expect(shareOf(figures.predicted)).toBeGreaterThanOrEqual(ROUND_TARGETS.predicted);
  });

  test('leave no light in the picture', () => {
    expect(scores.reduce((sum, { inPicture }) => sum + inPicture, 0)).toBe(0);
  });
});

const shareOf = ({ count, of }: Share) => count / of;
