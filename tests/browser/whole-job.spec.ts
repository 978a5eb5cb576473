import { readFileSync } from 'node:fs';
import type { Page } from '@playwright/test';
import { parseProfile } from '../../src/engine/profile/parse-profile.ts';
import { chooseSample, dropFiles, expect, openBench, takeIds, test, waitForVerdict } from './open-bench.ts';

const FRAME = readFileSync(new URL('../../samples/one-side-dark-and-cool.png', import.meta.url));

async function saved(page: Page, button: string): Promise<{ name: string; text: string }> {
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name: button }).click(),
  ]);
  return { name: download.suggestedFilename(), text: readFileSync(await download.path(), 'utf8') };
}

test('a sample gives a verdict with its ±', async ({ page }) => {
  await openBench(page);
  await chooseSample(page, 'Sheet lit off centre');
  const verdict = page.locator('.verdict');
  await expect(verdict).toContainText(/Within \d\.\d\sstops? across the frame; you asked for 0\.3\./);
  await expect(verdict).toContainText('±');
  await expect(page.getByRole('heading', { name: 'What to move' })).toBeVisible();
});

test('a dropped file gives maps, a reading and a valid profile', async ({ page }) => {
  await openBench(page);
  await dropFiles(page, [{ name: 'tumblers-blank.png', type: 'image/png', bytes: FRAME }]);
  await waitForVerdict(page);
  await expect(page.getByRole('img', { name: 'Map of the light' })).toBeVisible();
  await page.getByRole('radio', { name: 'Tint' }).check();
  await expect(page.getByRole('img', { name: 'Map of the tint' })).toBeVisible();
  await expect(page.getByRole('img', { name: 'Cast in the u′v′ plane' })).toBeVisible();

  const profile = await saved(page, 'Save the correction profile');
  expect(profile.name).toBe('tumblers-blank.profile.json');
  expect(profile.text.length).toBeLessThan(1_000_000);
  const parsed = parseProfile(profile.text);
  expect(parsed.schema).toBe('evenfield.profile/1');
  expect(parsed.lattice.green).toHaveLength(parsed.lattice.columns * parsed.lattice.rows);

  const reading = await saved(page, 'Save the reading');
  expect(reading.name).toBe('tumblers-blank.reading.json');
  const { schema, grid, falloff, frame } = JSON.parse(reading.text);
  expect(schema).toBe('evenfield.reading/1');
  expect(frame.name).toBe('tumblers-blank.png');
  expect(falloff.evMap).toHaveLength(grid.columns * grid.rows);
});

test('a chosen file is read', async ({ page }) => {
  await openBench(page);
  await page
    .getByLabel('Choose a frame…')
    .setInputFiles({ name: 'blank.png', mimeType: 'image/png', buffer: FRAME });
  await waitForVerdict(page);
  await expect(page.getByText('blank.png')).toBeVisible();
});

test('several chosen files are averaged into one take', async ({ page }) => {
  await openBench(page);
  const file = (name: string) => ({ name, mimeType: 'image/png', buffer: FRAME });
  await page.getByLabel('Choose a frame…').setInputFiles([file('one.png'), file('two.png')]);
  await waitForVerdict(page);
  await expect(page.getByText('one.png and 1 more')).toBeVisible();
  expect(await takeIds(page)).toEqual(['take-1']);
});

test('another yardstick judges again without reading the frame again', async ({ page }) => {
  await openBench(page);
  await chooseSample(page, 'Nearly perfect');
  let phases = 0;
  await page.exposeFunction('countPhase', () => {
    phases++;
  });
  await page.evaluate(() => {
    document.addEventListener('evenfield-progress', () =>
      (window as unknown as { countPhase(): void }).countPhase(),
    );
  });
  await page
    .getByRole('combobox', { name: 'Yardstick' })
    .selectOption({ label: '10 % from the centre, a proofing display’s limit' });
  await expect(page.locator('.verdict')).toContainText('from the centre; you asked for 10');
  expect(phases).toBe(0);
});

test('earlier takes can be shown again', async ({ page }) => {
  await openBench(page);
  await chooseSample(page, 'Nearly perfect');
  await chooseSample(page, 'Light too close');
  await expect(page.getByRole('button', { name: /^Take 2/ })).toHaveAttribute('aria-current', 'true');
  await page.getByRole('button', { name: /^Take 1/ }).click();
  await expect(page.locator('.verdict')).toContainText('Even enough');
});

test('a reading under way can be cancelled; the earlier take stays', async ({ page }) => {
  await openBench(page);
  await chooseSample(page, 'Nearly perfect');
  const codes = await page.evaluate(async () => {
    const bench = document.querySelector('evenfield-bench')!;
    const noted: string[] = [];
    bench.addEventListener('evenfield-error', (event) => noted.push(event.detail.code));
    const reading = bench
      .read('two-unequal-lights.jpg')
      .catch((error) => noted.push(`rejected ${error.code}`));
    // the button, as soon as it is there
    await new Promise<void>((done) => {
      bench.addEventListener('evenfield-progress', () => setTimeout(done), { once: true });
    });
    const status = bench.shadowRoot!.querySelector('evenfield-status')!;
    await status.updateComplete;
    status.shadowRoot!.querySelector('button')!.click();
    await reading;
    return noted;
  });
  expect(codes).toEqual(['cancelled', 'rejected cancelled']);
  expect(await takeIds(page)).toEqual(['take-1']);
});

test('a worker that dies is told of, and the next frame is read all the same', async ({ page }) => {
  await page.addInitScript(() => {
    const Original = Worker;
    class FirstOneDies extends Original {
      constructor(...parameters: ConstructorParameters<typeof Worker>) {
        super(...parameters);
        const counted = window as unknown as { workers?: number };
        counted.workers = (counted.workers ?? 0) + 1;
        if (counted.workers === 1)
          setTimeout(() => this.dispatchEvent(new ErrorEvent('error', { message: 'out of memory' })), 5);
      }
    }
    window.Worker = FirstOneDies;
  });
  await openBench(page);
  await page.getByRole('button', { name: 'Room spill' }).click();
  await expect(page.getByRole('alert')).toContainText('out of memory');
  await chooseSample(page, 'Room spill');
  await expect(page.getByRole('alert')).toBeEmpty();
});
