import { test as base, expect, type Page } from '@playwright/test';
import type { EvenfieldBench } from '../../src/screen/evenfield-bench.ts';

/** What went on behind the page: every request, what the console complained of, what the policy refused. */
export interface PageWatch {
  readonly requests: string[];
  readonly complaints: string[];
}

/** A page with the tool open, watched: each test ends with no console error and no request that left the origin. */
export const test = base.extend<{ watch: PageWatch }>({
  watch: [
    async ({ page, baseURL }, use) => {
      const watch: PageWatch = { requests: [], complaints: [] };
      page.on('request', (request) => watch.requests.push(request.url()));
      page.on('console', (message) => {
        if (message.type() === 'error') watch.complaints.push(message.text());
      });
      page.on('pageerror', (error) => watch.complaints.push(String(error)));
      await page.addInitScript(() => {
        window.addEventListener('securitypolicyviolation', (event) => {
          console.error(`policy violation: ${event.violatedDirective} ${event.blockedURI}`);
        });
      });
      await use(watch);
      expect(watch.complaints).toEqual([]);
      const away = watch.requests.filter(
        (url) => !url.startsWith(baseURL!) && !url.startsWith(`blob:${baseURL}`),
      );
      expect(away).toEqual([]);
      expect(watch.requests.length).toBeGreaterThan(0);
    },
    { auto: true },
  ],
});

export { expect };

export async function openBench(page: Page, path = ''): Promise<void> {
  await page.goto(path);
  await expect(page.getByText('Light the background, take the subject out')).toBeVisible();
}

/** Longest that a small frame may take to be read and fitted, beside whatever else the machine does. */
export const A_READING = { timeout: 30_000 };

/** Waits for a verdict, as one who looks at the page would. */
export async function waitForVerdict(page: Page): Promise<void> {
  await expect(page.locator('.verdict')).toBeVisible(A_READING);
  await expect(page.getByRole('progressbar', { name: 'Reading' })).toHaveCount(0, A_READING);
}

/** Chooses a sample by its title and waits for its verdict. */
export async function chooseSample(page: Page, title: string): Promise<void> {
  await page.getByRole('button', { name: title }).click();
  await waitForVerdict(page);
}

/** Chooses another yardstick, and waits until the frame has been judged by it and the page drawn. */
export async function judgeByAnother(page: Page): Promise<void> {
  const judged = page.evaluate(
    () =>
      new Promise<void>((done) =>
        document.addEventListener('evenfield-reading', () => done(), { once: true }),
      ),
  );
  await page.getByRole('combobox', { name: 'Yardstick' }).selectOption({ index: 1 });
  await judged;
  await page.evaluate(async () => {
    for (const _ of [1, 2]) await new Promise(requestAnimationFrame);
  });
}

/** Drops files on the page, or on a part of it, as dragged in from the desktop. */
export async function dropFiles(
  page: Page,
  files: readonly { name: string; type: string; bytes: Uint8Array }[],
  onto = 'main',
): Promise<void> {
  const data = await page.evaluateHandle(
    (listed) => {
      const transfer = new DataTransfer();
      for (const { name, type, base64 } of listed) {
        const bytes = Uint8Array.from(atob(base64), (c) => c.charCodeAt(0));
        transfer.items.add(new File([bytes], name, { type }));
      }
      return transfer;
    },
    files.map(({ name, type, bytes }) => ({ name, type, base64: Buffer.from(bytes).toString('base64') })),
  );
  for (const event of ['dragover', 'drop']) await page.dispatchEvent(onto, event, { dataTransfer: data });
}

/** Remembers the details of the element's error events from now on. */
export async function noteErrors(
  page: Page,
): Promise<() => Promise<{ code: string; message: string; fileName: string }[]>> {
  await page.evaluate(() => {
    const noted: unknown[] = [];
    (window as unknown as { noted: unknown[] }).noted = noted;
    document.addEventListener('evenfield-error', (event) => noted.push((event as CustomEvent).detail));
  });
  return () => page.evaluate(() => (window as unknown as { noted: never[] }).noted);
}

/** The ids of the takes that the element holds. */
export function takeIds(page: Page): Promise<string[]> {
  return page.evaluate(() =>
    (document.querySelector('evenfield-bench') as EvenfieldBench).takes.map(({ id }) => id),
  );
}
