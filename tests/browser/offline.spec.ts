import { createHash } from 'node:crypto';
import { cpSync, mkdtempSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { BrowserContext, Page } from '@playwright/test';
import sharp from 'sharp';
import { SERVED_HEADERS } from '../../src/screen/page-policy.ts';
import { type BuiltSite, builtSite, DIST } from './built-site.ts';
import { chooseSample, expect, openBench, takeIds, test, waitForVerdict } from './open-bench.ts';
import { correctOne, readEachKind } from './whole-job.ts';

test.use({ serviceWorkers: 'allow' });

const READY = 'Ready to be used without a network: this browser keeps a copy of the whole page';

let site: BuiltSite;
test.use({
  // biome-ignore lint/correctness/noEmptyPattern: Playwright tells fixtures by this pattern
  baseURL: async ({}, use) => {
    site = await builtSite(DIST, SERVED_HEADERS);
    await use(site.address);
    await site.close();
  },
});

const foot = (page: Page) => page.locator('evenfield-offline');

async function openKept(page: Page): Promise<void> {
  await openBench(page);
  await expect(foot(page)).toContainText(READY, { timeout: 20_000 });
}

async function withoutNetwork(context: BrowserContext): Promise<void> {
  await context.setOffline(true);
  await site.close();
}

test('the page installs: its manifest says all that a browser asks for', async ({ page, context }) => {
  await openKept(page);
  const session = await context.newCDPSession(page);
  const { url, errors, data } = await session.send('Page.getAppManifest');
  expect(errors).toEqual([]);
  expect(url).toBe(`${site.address}app.webmanifest`);
  const manifest = JSON.parse(data!);
  for (const { src, sizes } of manifest.icons) {
    const { width, height } = await sharp(join(DIST, src)).metadata();
    expect(`${width}x${height}`).toBe(sizes);
  }
  const { installabilityErrors } = await session.send('Page.getInstallabilityErrors');
  // a window without a profile of its own, as tests use, can install nothing
  expect(installabilityErrors.map(({ errorId }) => errorId).filter((id) => id !== 'in-incognito')).toEqual(
    [],
  );
});

test('nothing is fetched for later before the page stands; then every file of the build is kept', async ({
  page,
  watch,
}) => {
  await page.goto('', { waitUntil: 'load' });
  const first = [...watch.requests];
  expect(first.filter((url) => /libraw|lcms|offline\.js/.test(url))).toEqual([]);
  await expect(foot(page)).toContainText(READY, { timeout: 20_000 });
  const kept = await page.evaluate(async () => {
    const names = await caches.keys();
    const requests = await (await caches.open(names[0]!)).keys();
    return { names: names.length, paths: requests.map(({ url }) => url.slice(document.baseURI.length)) };
  });
  const built = readdirSync(DIST, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && entry.name !== 'offline.js' && !entry.name.endsWith('.md'))
    .map((entry) => join(entry.parentPath, entry.name).slice(DIST.length))
    .filter((path) => !/^package[\\/]/.test(path)) // what others install lies beside the page and is no part of it
    .map((path) => (path === 'index.html' ? '' : path));
  expect(kept.names).toBe(1);
  expect(kept.paths.sort()).toEqual(built.sort());
});

test('with the network off the page opens and does the whole job: JPEG, 16-bit TIFF, raw, profile, correction, reload', async ({
  page,
  context,
}) => {
  test.setTimeout(120_000);
  await openKept(page);
  await withoutNetwork(context);
  await page.reload();
  await expect(page.getByText('Light the background, take the subject out')).toBeVisible();
  expect(await page.evaluate(() => window.crossOriginIsolated)).toBe(true); // the headers are kept too
  await expect(foot(page)).toContainText(READY);

  await readEachKind(page);
  await correctOne(page);

  await page.waitForTimeout(1500);
  page.on('dialog', (dialog) => dialog.accept());
  await page.reload();
  await page.getByRole('button', { name: /^Go on with 3 takes/ }).click();
  await waitForVerdict(page);
  expect(await takeIds(page)).toEqual(['take-1', 'take-2', 'take-3']);
});

const sha256 = (bytes: string | Uint8Array) => createHash('sha256').update(bytes).digest('base64');

/** The build with two files changed that keep their names, which stands for a later version of it. */
function laterBuild(): string {
  const folder = mkdtempSync(join(tmpdir(), 'evenfield-later-'));
  cpSync(DIST, folder, { recursive: true });
  const worker = join(folder, 'offline.js');
  const code = readFileSync(worker, 'utf8');
  const list: string = JSON.parse(/JSON\.parse\(("(?:[^"\\]|\\.)*")\)/.exec(code)![1]!);
  let later = list;
  const change = (path: string, into: (text: string) => string) => {
    const before = readFileSync(join(folder, path), 'utf8');
    writeFileSync(join(folder, path), into(before));
    expect(later).toContain(sha256(before));
    later = later.replace(sha256(before), sha256(into(before)));
  };
  change('index.html', (html) => html.replace('<h1>Evenfield</h1>', '<h1>Evenfield, later</h1>'));
  change('libraw/libraw.js', (text) => `${text}// later`);
  const newer = code.replace(JSON.stringify(list), JSON.stringify(later));
  writeFileSync(worker, newer.replace(sha256(list), sha256(later)));
  return folder;
}

test('a newer version waits while a session runs, and takes over when it is asked for; takes come back', async ({
  page,
  context,
}) => {
  test.setTimeout(90_000);
  await openKept(page);
  await chooseSample(page, 'Nearly perfect');
  site.serve(laterBuild());
  const other = await context.newPage(); // opening a page has the browser look for a newer version
  await openBench(other);
  await expect(other.getByRole('heading', { level: 1 })).toHaveText('Evenfield');
  const offer = (at: Page) => at.getByRole('button', { name: 'Load the newer version' });
  await expect(offer(page)).toBeVisible({ timeout: 20_000 });
  expect(await takeIds(page)).toEqual(['take-1']);

  // asked for while another page is open: everything stays, and the reason is told
  await offer(page).click();
  await expect(foot(page)).toContainText('open in another page of this browser');
  await page.reload();
  await expect(page.getByRole('heading', { level: 1 })).toHaveText('Evenfield');
  expect(await page.evaluate(() => caches.keys())).toHaveLength(2);

  await other.close();
  await page.getByRole('button', { name: /^Go on with 1 take/ }).click();
  await waitForVerdict(page);
  await page.waitForTimeout(1000);
  // a busy browser counts a page for some seconds after it was closed: until then the offer stays, to be asked again
  await expect(async () => {
    if (await offer(page).isVisible()) await offer(page).click();
    await expect(page.getByRole('heading', { level: 1 })).toHaveText('Evenfield, later', { timeout: 3000 });
  }).toPass({ timeout: 30_000 });
  expect(page.url()).toBe(site.address);
  await expect(foot(page)).toContainText(READY);
  await expect.poll(() => page.evaluate(() => caches.keys())).toHaveLength(1);
  await page.getByRole('button', { name: /^Go on with 1 take/ }).click();
  await waitForVerdict(page);
  expect(await takeIds(page)).toEqual(['take-1']);

  // and without a network it is the newer one that opens
  await withoutNetwork(context);
  await page.reload();
  await expect(page.getByRole('heading', { level: 1 })).toHaveText('Evenfield, later');
});

test('a newer version takes over by itself once every page is closed', async ({ page, context }) => {
  await openKept(page);
  site.serve(laterBuild());
  await page.reload();
  await expect(page.getByRole('button', { name: 'Load the newer version' })).toBeVisible({ timeout: 20_000 });
  await page.close();
  await expect(async () => {
    const next = await context.newPage();
    await next.goto(site.address);
    await expect(next.getByRole('heading', { level: 1 })).toHaveText('Evenfield, later', { timeout: 1000 });
  }).toPass({ timeout: 10_000 });
});

test('a copy of which one file is not the one that was built is refused, and the page says so', async ({
  page,
}) => {
  const folder = mkdtempSync(join(tmpdir(), 'evenfield-changed-'));
  cpSync(DIST, folder, { recursive: true });
  writeFileSync(join(folder, 'libraw/libraw.js'), 'export default 1;');
  site.serve(folder);
  await openBench(page);
  await expect(foot(page)).toContainText('no whole copy of this page could be kept', { timeout: 20_000 });
});
