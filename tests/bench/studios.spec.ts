import { mkdirSync, writeFileSync } from 'node:fs';
import { test } from '@playwright/test';
import { figureLines } from '../engine/studios/figure-lines.ts';
import { scoreSeed } from '../engine/studios/score-seed.ts';
import type { StudioScore } from '../engine/studios/score-studio.ts';
import { studioFaults } from '../engine/studios/studio-faults.ts';
import { studioFigures } from '../engine/studios/studio-figures.ts';

const STUDIOS = 200;
const TOLD_EVERY = 10;

/** Rendering, measuring and fitting take a few seconds of each studio; a busy machine needs several times that. */
const MOST_MINUTES = 90;

test(`causes of ${STUDIOS} drawn studios, against what was planted`, async () => {
  test.setTimeout(MOST_MINUTES * 60_000);
  const scores: StudioScore[] = [];
  const start = performance.now();
  for (let seed = 1; seed <= STUDIOS; seed++) {
    scores.push(await scoreSeed(seed));
    if (seed % TOLD_EVERY === 0)
      console.log(
        `${seed} of ${STUDIOS} studios read, ${((performance.now() - start) / 60_000).toFixed(1)} min`,
      );
  }
  for (const line of [...studioFaults(scores), ...figureLines(studioFigures(scores))]) console.log(line);
  mkdirSync('reports', { recursive: true });
  writeFileSync('reports/bench-studios.json', JSON.stringify(scores));
});
