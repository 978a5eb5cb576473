import { readFileSync } from 'node:fs';
import { expect, type Page } from '@playwright/test';
import { A_READING, chooseSample, openBench } from '../browser/open-bench.ts';
import { setFrame } from '../browser/second-frame-files.ts';

const sample = (name: string) => readFileSync(new URL(`../../samples/${name}`, import.meta.url));
const NOTES = { name: 'notes.txt', mimeType: 'text/plain', buffer: Buffer.from('not a picture') };

/** The report has been drawn to its last part: the parts below the map each take a task of their own. */
export async function drawn(page: Page): Promise<void> {
  await expect(page.getByRole('heading', { name: 'Save and print' })).toBeVisible(A_READING);
  await page.waitForTimeout(500);
}

export async function report(page: Page, title: string): Promise<void> {
  await openBench(page);
  await chooseSample(page, title);
  await drawn(page);
}

/** Moves answered, and a second frame shot after them under a long name. */
async function secondTake(page: Page): Promise<void> {
  await report(page, 'Sheet lit off centre');
  const done = page.getByRole('radio', { name: 'Done', exact: true });
  await done.first().check();
  await page.getByRole('textbox', { name: 'Distance now' }).fill('120');
  await page.keyboard.press('Tab');
  await done.last().check();
  const chooser = page.waitForEvent('filechooser');
  await page.getByRole('button', { name: 'Shoot again' }).click();
  await (await chooser).setFiles({
    name: `tumblers-autumn-catalogue-${'background-'.repeat(9)}0042.png`,
    mimeType: 'image/png',
    buffer: sample('nearly-perfect.png'),
  });
  await expect(page.getByRole('button', { name: /^Take 2/ })).toBeVisible(A_READING);
  await drawn(page);
}

/** A second take that is less even than the first: the way back stands at the takes. */
async function worseTake(page: Page): Promise<void> {
  await report(page, 'Sheet lit off centre');
  const done = page.getByRole('radio', { name: 'Done', exact: true });
  await done.nth(0).check();
  await done.nth(1).check();
  const chooser = page.waitForEvent('filechooser');
  await page.getByRole('button', { name: 'Shoot again' }).click();
  await (await chooser).setFiles({
    ...{ name: 'worse.jpg', mimeType: 'image/jpeg', buffer: sample('light-too-close.jpg') },
  });
  await expect(page.getByText('To go back to it:')).toBeVisible(A_READING);
  await drawn(page);
}

/** The first of two takes, with what was told of it and made since. */
async function earlierTake(page: Page): Promise<void> {
  await worseTake(page);
  await page.getByRole('button', { name: /^Take 1/ }).click();
  await expect(page.getByText(/^These are the moves as they were told/)).toBeVisible();
  await drawn(page);
}

/** A light that no move makes more even, and a limit that asks for more. */
async function leftAsItIs(page: Page): Promise<void> {
  await report(page, 'Nearly perfect');
  await page.getByRole('combobox', { name: 'Yardstick' }).selectOption('a limit of my own');
  await page.getByRole('textbox', { name: 'Limit of evenness' }).fill('0.05');
  await page.keyboard.press('Tab');
  await expect(page.getByText(/^Leave the lights where they are/)).toBeVisible(A_READING);
  await drawn(page);
}

/** A frame with the lights off beside the take, and the sentence that asks for one with the camera slid. */
async function secondFrame(page: Page): Promise<void> {
  await openBench(page);
  await page.getByLabel('Choose a frame…').setInputFiles(setFrame('tumbler-wall.png'));
  await drawn(page);
  await page.getByLabel('Choose the second frame…').setInputFiles(setFrame('room-dark.png'));
  await expect(page.getByText('Used: room-dark.png')).toBeVisible(A_READING);
  await page
    .getByRole('combobox', { name: 'What the second frame is shot with' })
    .selectOption('the camera slid');
  await drawn(page);
}

/** A frame that can't tell what its light is like, as nothing was entered of the set. */
async function inDoubt(page: Page): Promise<void> {
  await openBench(page);
  const buffer = sample('light-too-close.jpg');
  await page
    .getByLabel('Choose a frame…')
    .setInputFiles({ name: 'tumbler-wall.jpg', mimeType: 'image/jpeg', buffer });
  await expect(page.getByText('Settle it with a second frame')).toBeVisible(A_READING);
  await drawn(page);
}

/** A frame of the subject tried on, and a file that is none. */
async function correct(page: Page): Promise<void> {
  await report(page, 'Sheet lit off centre');
  await page.getByRole('button', { name: 'Try it on a sample frame' }).click();
  await expect(page.getByText(/^Corrected\./)).toBeVisible(A_READING);
  await page.getByLabel('Choose frames to correct…').setInputFiles(NOTES);
  await expect(page.getByText(/^Can’t be corrected/)).toBeVisible(A_READING);
  await drawn(page);
}

/** The background alone, painted over, and written. */
async function corrected(page: Page): Promise<void> {
  await correct(page);
  await page
    .getByRole('combobox', { name: 'What the unevenness is taken out of' })
    .selectOption('the background only');
  await page.getByRole('combobox', { name: 'Level of the background' }).selectOption('a level of my own');
  await expect(page.getByText(/What is hatched stays/)).toBeVisible(A_READING);
  await page.getByRole('application', { name: /^As shot/ }).focus();
  await page.keyboard.press('Enter');
  await expect(page.getByRole('button', { name: 'Take the last stroke back' })).toBeVisible(A_READING);
  await page.getByRole('button', { name: 'Correct this frame' }).click();
  await expect(page.getByText(/^1 of 2 frames corrected/)).toBeVisible(A_READING);
  await expect(page.getByText(/^Trying it on/)).toHaveCount(0, A_READING);
  await drawn(page);
}

/** Every state of the page, and how a user gets there from nothing. */
export const STATES: Record<string, (page: Page) => Promise<void>> = {
  start: (page) => openBench(page),
  reading: async (page) => {
    await openBench(page);
    await page.route('**/samples/sheet-off-centre*', () => {}); // never answers: the page stays reading
    await page.getByRole('button', { name: /Sheet lit off centre/ }).click();
    await expect(page.getByRole('button', { name: 'Cancel' })).toBeVisible();
  },
  report: (page) => report(page, 'Sheet lit off centre'),
  tint: async (page) => {
    await report(page, 'One side dark and cool');
    await page.getByRole('radio', { name: 'Tint' }).check();
    await drawn(page);
  },
  even: (page) => report(page, 'Nearly perfect'),
  clipped: (page) => report(page, 'Clipped'),
  'own-limit': async (page) => {
    await report(page, 'Two unequal lights');
    await page.getByRole('combobox', { name: 'Yardstick' }).selectOption('a limit of my own');
    await page.getByText('Size of the light, camera and room to move').click();
    await drawn(page);
  },
  'second-take': secondTake,
  'worse-take': worseTake,
  'earlier-take': earlierTake,
  spill: (page) => report(page, 'Room spill'),
  'left-as-it-is': leftAsItIs,
  'second-frame': secondFrame,
  'in-doubt': inDoubt,
  correct,
  corrected,
  failure: async (page) => {
    await openBench(page);
    await page.getByLabel('Choose a frame…').setInputFiles(NOTES);
    await expect(page.getByRole('alert')).not.toBeEmpty();
  },
  'failure-after-a-take': async (page) => {
    await report(page, 'Tinted sheet');
    await page.getByLabel('Read another frame…').setInputFiles(NOTES);
    await expect(page.getByRole('alert')).not.toBeEmpty();
  },
  'worker-lost': async (page) => {
    await page.addInitScript(() => {
      const Real = window.Worker;
      window.Worker = class extends Real {
        constructor(address: string | URL, options?: WorkerOptions) {
          super(address, options);
          queueMicrotask(() => this.dispatchEvent(new ErrorEvent('error', { message: 'gone' })));
        }
      };
    });
    await openBench(page);
    await page.getByRole('button', { name: /Sheet lit off centre/ }).click();
    await expect(page.getByRole('alert')).not.toBeEmpty();
  },
};
