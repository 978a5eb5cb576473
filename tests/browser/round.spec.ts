import { readFileSync } from 'node:fs';
import type { Page } from '@playwright/test';
import { seededRandom } from '../../src/engine/numeric/seeded-random.ts';
import type { EvenfieldBench } from '../../src/screen/evenfield-bench.ts';
import { madeMoves } from '../engine/rounds/make-moves.ts';
import { handsFrom } from '../synthetic/random/hands.ts';
import { SAMPLES, sampleBytes } from '../synthetic/samples/sample-files.ts';
import { A_READING, chooseSample, expect, openBench, test } from './open-bench.ts';

const OFF_CENTRE = SAMPLES.find(({ file }) => file === 'sheet-off-centre.jpg')!;

/** The frame shot after the moves of the newest take were made, by hands that err. */
async function frameAfterMoves(page: Page): Promise<Buffer> {
  const moves = await page.evaluate(
    () => (document.querySelector('evenfield-bench') as EvenfieldBench).takes.at(-1)!.reading.moves,
  );
  const set = madeMoves(OFF_CENTRE.set, moves, handsFrom(seededRandom(3)));
  // the samples' lights are kept by file name: this is another
  return Buffer.from(await sampleBytes({ ...OFF_CENTRE, file: 'after-the-moves.jpg', set }));
}

/** Every move but the last, which is for whoever cannot make the others. */
async function answerDone(page: Page): Promise<void> {
  const done = page.getByRole('radio', { name: 'Done', exact: true });
  const count = await done.count();
  for (let i = 0; i < count - 1; i++) await done.nth(i).check();
  await page.getByRole('radio', { name: 'Not done' }).last().check();
}

async function shootAgain(page: Page, name: string, buffer: Buffer): Promise<void> {
  const chooser = page.waitForEvent('filechooser');
  await page.getByRole('button', { name: 'Shoot again' }).click();
  await (await chooser).setFiles({ name, mimeType: 'image/jpeg', buffer });
}

test('a whole round: the moves as told are made, and what came out stands beside what was foretold', async ({
  page,
}) => {
  await openBench(page);
  await chooseSample(page, 'Sheet lit off centre');
  const move = (n: number) =>
    page.getByRole('listitem').filter({ has: page.getByRole('group', { name: `Was move ${n} made?` }) });
  await expect(move(1)).toContainText(
    /Slide the light \d+\scm right \(from behind the sheet: your left\)( and \d+\scm (up|down))?\./,
  );
  await expect(move(2)).toContainText(/Move the light \d+\scm farther from the sheet, to 1\d\d\scm\./);
  await expect(
    page.getByText(/With moves 1 and 2 made, expect 0\.\d\sstop across the frame, ±/),
  ).toBeVisible();

  const next = await frameAfterMoves(page);
  await answerDone(page);
  await shootAgain(page, 'after-the-moves.jpg', next);
  const row = page.getByRole('row', { name: /Take 2/ });
  await expect(row).toContainText(/foretold 0\.\d\sstop ±\s0\.\d\d, came out 0\.\d/, A_READING);
  await expect(row).not.toContainText('beyond that');
  const [foretold, came] = await page.evaluate(() => {
    const [first, second] = (document.querySelector('evenfield-bench') as EvenfieldBench).takes;
    return [first!.reading.predicted!, second!.reading.falloff.spreadEv] as const;
  });
  console.log(
    `measured: foretold ${foretold.spreadEv.toFixed(2)} ± ${foretold.plusMinusEv.toFixed(2)}, came out ${came.toFixed(2)}`,
  );
  expect(Math.abs(came - foretold.spreadEv)).toBeLessThan(foretold.plusMinusEv);
  await expect(page.getByText(/more even than the newest/)).toHaveCount(0);

  // a limit that the first take keeps asks for no move: what was told and made stays all the same
  await page.getByRole('combobox', { name: 'Yardstick' }).selectOption('a limit of my own');
  await page.getByRole('textbox', { name: 'Limit of evenness' }).fill('3');
  await page.keyboard.press('Tab');
  const predictedNow = () =>
    page.evaluate(
      () => (document.querySelector('evenfield-bench') as EvenfieldBench).takes[0]!.reading.predicted,
    );
  await expect.poll(predictedNow, A_READING).toBeNull();
  const words = `foretold ${foretold.spreadEv.toFixed(1)}\u00a0stop ±\u00a0${foretold.plusMinusEv.toFixed(2)}`;
  await expect(row).toContainText(words);
  await expect(page.getByText('Hollow: what was foretold, with its ±.')).toBeVisible();
  await page.getByRole('button', { name: /^Take 1/ }).click();
  await expect(page.getByRole('listitem').filter({ hasText: 'Slide the light' })).toBeVisible();
  await expect(page.getByText(/^These are the moves as they were told before the next take/)).toBeVisible();
});

test('after a round that made it worse, the way back is told move by move, in the unit that is spoken', async ({
  page,
}) => {
  await openBench(page);
  await chooseSample(page, 'Sheet lit off centre');
  await answerDone(page);
  await shootAgain(
    page,
    'worse.jpg',
    readFileSync(new URL('../../samples/light-too-close.jpg', import.meta.url)),
  );
  await expect(
    page.getByText('Take 1 of this set-up was more even than the newest. To go back to it:'),
  ).toBeVisible(A_READING);
  await expect(page.getByRole('row', { name: /Take 2/ })).toContainText(/: beyond that\s±/);
  await expect(page.getByText(/^This frame does not go with the takes before it/)).toBeVisible();
  const steps = page.getByRole('listitem').filter({ hasNot: page.getByRole('group') });
  await expect(
    steps.filter({ hasText: /^Slide the light \d+\scm left \(from behind the sheet: your right\)/ }),
  ).toBeVisible();
  await expect(
    steps.filter({ hasText: /^Move the light \d+\scm closer to the sheet, to 60\scm\.$/ }),
  ).toBeVisible();
  await page.getByRole('combobox', { name: 'Unit of length' }).selectOption('inches');
  await expect(
    steps.filter({ hasText: /^Move the light [\d.]+\sin closer to the sheet, to 23\.6\sin\.$/ }),
  ).toBeVisible();
});

test('a light that no move makes more even is left to the profile', async ({ page }) => {
  await openBench(page);
  await chooseSample(page, 'Nearly perfect');
  await expect(page.getByText('Nothing: leave it as it is and shoot.')).toBeVisible();
  await page.getByRole('combobox', { name: 'Yardstick' }).selectOption('a limit of my own');
  await page.getByRole('textbox', { name: 'Limit of evenness' }).fill('0.05');
  await page.keyboard.press('Tab');
  await expect(
    page.getByText(
      /^Leave the lights where they are: no move promises anything to speak of beyond its own\s±\. The profile takes out the 0\.1\sstop that is left/,
    ),
  ).toBeVisible(A_READING);
});
