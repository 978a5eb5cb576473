import { readFileSync, writeFileSync } from 'node:fs';
import { expect, type Locator, type Page, test } from '@playwright/test';
import { fileChoosers } from './file-choosers.ts';
import { type InstalledPackage, installPackage } from './installed-package.ts';
import { A_READING, dropFiles } from './open-bench.ts';
import { type ServedFolder, serveFolder } from './served-folder.ts';

const PAGE = `<!doctype html>
<html lang="en">
  <head>
    <meta http-equiv="Content-Security-Policy"
      content="default-src 'none'; script-src 'self'; worker-src 'self'; connect-src 'self'; style-src 'self'; img-src 'self' blob:" />
    <title>Two studios</title>
    <link rel="icon" href="icon.svg" />
    <script type="module" src="node_modules/evenfield/dist/package/evenfield-bench.js"></script>
  </head>
  <body>
    <h1>Two studios</h1>
    <input aria-label="Notes" />
    <evenfield-bench id="front"></evenfield-bench>
    <evenfield-bench id="back"></evenfield-bench>
  </body>
</html>`;

let installed: InstalledPackage;
let served: ServedFolder;
test.beforeAll(async () => {
  installed = installPackage();
  writeFileSync(`${installed.project}/icon.svg`, '<svg xmlns="http://www.w3.org/2000/svg" />');
  writeFileSync(`${installed.project}/two.html`, PAGE);
  writeFileSync(`${installed.project}/named.html`, PAGE.replace('id="back"', 'id="back" shelf="back"'));
  served = await serveFolder(installed.project);
});
test.afterAll(async () => {
  await served.close();
  installed.remove();
});

const file = (name: string) => new URL(`../../samples/${name}`, import.meta.url).pathname;
const EVEN = 'nearly-perfect.png';
const OFF = 'sheet-off-centre.jpg';

const both = (page: Page): readonly [Locator, Locator] => [page.locator('#front'), page.locator('#back')];
const chooser = (bench: Locator) => bench.getByLabel(/^(Choose a|Read another) frame…/);

/** What each element holds, by the names and spreads of its takes. */
const held = (page: Page) =>
  page.evaluate(() =>
    Array.from(document.querySelectorAll('evenfield-bench'), ({ takes }) =>
      takes.map(({ reading }) => ({ name: reading.frame.name, evMap: reading.falloff.evMap })),
    ),
  );
const namesHeld = async (page: Page) => (await held(page)).map((takes) => takes.map(({ name }) => name));

test('two elements read different frames at once, both right, and keep what they have apart', async ({
  page,
}) => {
  test.setTimeout(120_000);
  const faults: string[] = [];
  page.on('pageerror', (error) => faults.push(String(error)));
  page.on('console', (message) => message.type() === 'error' && faults.push(message.text()));
  await page.goto(`${served.address}two.html`);
  const [front, back] = both(page);
  await chooser(front).setInputFiles(file(EVEN));
  await chooser(back).setInputFiles(file(OFF)); // without waiting for the other
  for (const bench of [front, back]) await expect(bench.locator('.verdict')).toBeVisible(A_READING);
  await expect(front.locator('.verdict')).toContainText('Even');
  await expect(back.locator('.verdict')).toContainText('Within 1.3 stops');
  // the same frames by the other one: to the last bit alike
  await chooser(front).setInputFiles(file(OFF));
  await expect.poll(() => namesHeld(page), A_READING).toEqual([[EVEN, OFF], [OFF]]);
  await chooser(back).setInputFiles(file(EVEN));
  await expect
    .poll(() => namesHeld(page), A_READING)
    .toEqual([
      [EVEN, OFF],
      [OFF, EVEN],
    ]);
  const [first, second] = await held(page);
  expect(first![0]!.evMap).toEqual(second![1]!.evMap);
  expect(first![1]!.evMap).toEqual(second![0]!.evMap);
  await expect(front.getByText('drop it anywhere on this part of the page')).toBeVisible();
  expect(await page.title()).toBe('Two studios');

  // the second has no shelf, says so, and loses what it has with the page
  await expect(back.getByText('Nothing is kept here')).toBeVisible();
  await expect(front.getByText('Nothing is kept here')).toHaveCount(0);
  await page.waitForTimeout(1000);
  await back.getByRole('textbox', { name: 'Note on take 1' }).fill('the back room');
  await back.locator('.verdict').click(); // browsers ask only where somebody was at work
  const asked = new Promise<string>((resolve) =>
    page.once('dialog', (dialog) => {
      resolve(dialog.type());
      void dialog.accept();
    }),
  );
  await page.reload();
  expect(await asked).toBe('beforeunload');
  await expect(front.getByRole('button', { name: /^Go on with 2 takes/ })).toBeVisible();
  await expect(back.getByText('Light the background, take the subject out')).toBeVisible();
  await expect(back.getByRole('button', { name: /^Go on/ })).toHaveCount(0);
  expect(faults).toEqual([]);
});

test('a key on the page goes to the one worked with last, a dropped file to the one it lies on, paper to the one asked; each goes on from its own shelf', async ({
  page,
}) => {
  const choosers = fileChoosers(page);
  await page.goto(`${served.address}named.html`);
  const [front, back] = both(page);
  await chooser(front).setInputFiles(file(EVEN));
  await chooser(back).setInputFiles(file(OFF));
  await expect.poll(() => namesHeld(page), A_READING).toEqual([[EVEN], [OFF]]);
  for (const bench of [front, back])
    await expect(bench.getByRole('button', { name: 'Shoot again' })).toBeVisible();

  // nobody's yet: a key on the page does nothing
  await page.evaluate(() => (document.activeElement as HTMLElement | null)?.blur());
  const opened: string[] = [];
  await page.exposeFunction('opensFrom', (id: string) => opened.push(id));
  await page.evaluate(() => {
    HTMLInputElement.prototype.click = function () {
      let root = this.getRootNode();
      while (root instanceof ShadowRoot && root.host.localName !== 'evenfield-bench')
        root = root.host.getRootNode();
      void (window as unknown as { opensFrom(id: string): void }).opensFrom((root as ShadowRoot).host.id);
    };
  });
  await page.getByLabel('Notes').click();
  await page.evaluate(() => (document.activeElement as HTMLElement | null)?.blur());
  await page.keyboard.press('Enter');
  await back.locator('.verdict').click();
  await page.keyboard.press('Enter');
  await expect.poll(() => opened).toEqual(['back']);
  await front.locator('.verdict').click();
  await page.keyboard.press('Enter');
  await expect.poll(() => opened).toEqual(['back', 'front']);
  expect(choosers).toEqual([]);

  const dropped = { name: 'dropped.png', type: 'image/png', bytes: readFileSync(file(EVEN)) };
  await dropFiles(page, [dropped], 'body');
  await dropFiles(page, [dropped], '#back');
  await expect.poll(() => namesHeld(page), A_READING).toEqual([[EVEN], [OFF, 'dropped.png']]);

  await page.evaluate(() => {
    window.print = () => window.dispatchEvent(new Event('beforeprint')); // as one that is looked at for a while
  });
  await back.getByRole('button', { name: 'Print the record…' }).click();
  await page.emulateMedia({ media: 'print' });
  await expect(back.locator('evenfield-record').getByText('Darkest of brightest')).toBeVisible();
  await expect(back.locator('evenfield-record p.head')).toContainText('dropped.png');
  await expect(front).toBeHidden();
  await expect(page.getByRole('heading', { name: 'Two studios' })).toBeHidden();
  await expect(front.locator('evenfield-record p.head')).toHaveCount(0);
  const left = await back.evaluate((bench) => bench.getBoundingClientRect().left);
  expect(left).toBe(0);
  await page.evaluate(() => window.dispatchEvent(new Event('afterprint')));
  await page.emulateMedia({ media: null });
  await expect(front).toBeVisible();
  await expect(page.getByRole('heading', { name: 'Two studios' })).toBeVisible();

  // where printing is refused nothing tells so: whoever is at the page again prints all of it by the browser's own menu
  await page.evaluate(() => {
    window.print = () => {};
  });
  for (const [bench, another] of [
    [back, front],
    [front, back],
  ] as const) {
    await bench.getByRole('button', { name: 'Print the record…' }).click();
    await expect(bench).toHaveAttribute('printed');
    await expect(another).not.toHaveAttribute('printed');
  }
  await page.emulateMedia({ media: 'print' });
  await expect(page.getByRole('heading', { name: 'Two studios' })).toBeHidden();
  await page.emulateMedia({ media: null });
  await page.getByLabel('Notes').click();
  await page.emulateMedia({ media: 'print' });
  await expect(page.getByRole('heading', { name: 'Two studios' })).toBeVisible();
  await page.emulateMedia({ media: null });

  await page.reload();
  for (const [bench, takes] of [
    [front, /^Go on with 1 take/],
    [back, /^Go on with 2 takes/],
  ] as const) {
    await expect(bench.getByRole('button', { name: /^Go on with/ })).toHaveCount(1);
    await bench.getByRole('button', { name: takes }).click();
  }
  await expect.poll(() => namesHeld(page), A_READING).toEqual([[EVEN], [OFF, 'dropped.png']]);
});
