import { mkdirSync, writeFileSync } from 'node:fs';
import { test } from '@playwright/test';
import { playRounds, type RoundRules } from '../engine/rounds/play-rounds.ts';
import { roundsLines } from '../engine/rounds/rounds-lines.ts';
import { type RoundsScore, scoreRounds } from '../engine/rounds/score-rounds.ts';
import { movableStudio } from '../synthetic/random/movable-studio.ts';

const STUDIOS = 100;
const TOLD_EVERY = 10;

/** Every studio takes some ten seconds of rendering, reading and searching; a busy machine several times that. */
const MOST_MINUTES = 120;

const RULES: Record<string, RoundRules> = {
  'three rounds': { rounds: 3, writes: '16 bit', isMeasured: true },
  'nothing entered, four rounds': { rounds: 4, writes: '16 bit', isMeasured: false },
  'a camera’s styled JPEG, five rounds': { rounds: 5, writes: 'styled JPEG', isMeasured: true },
};

for (const arrangement of ['behind-sheet', 'bounced', 'two-lamps'] as const)
  for (const [name, rules] of Object.entries(RULES))
    test(`moves at ${STUDIOS} sets ${arrangement}, ${name}`, async () => {
      test.setTimeout(MOST_MINUTES * 60_000);
      const scores: RoundsScore[] = [];
      const start = performance.now();
      for (let seed = 1; seed <= STUDIOS; seed++) {
        scores.push(scoreRounds(await playRounds(movableStudio(seed, arrangement), rules)));
        if (seed % TOLD_EVERY === 0)
          console.log(
            `${seed} of ${STUDIOS} studios played, ${((performance.now() - start) / 60_000).toFixed(1)} min`,
          );
      }
      for (const line of roundsLines(`${arrangement}, ${name}`, scores)) console.log(line);
      mkdirSync('reports', { recursive: true });
      writeFileSync(`reports/bench-moves-${arrangement}-${rules.rounds}.json`, JSON.stringify(scores));
    });
