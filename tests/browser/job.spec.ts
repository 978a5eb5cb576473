import { readFileSync } from 'node:fs';
import { gunzipSync, gzipSync } from 'node:zlib';
import type { Page } from '@playwright/test';
import type { EvenfieldBench } from '../../src/screen/evenfield-bench.ts';
import {
  chooseSample,
  dropFiles,
  expect,
  noteErrors,
  openBench,
  takeIds,
  test,
  waitForVerdict,
} from './open-bench.ts';

async function savedJob(page: Page): Promise<{ name: string; bytes: Buffer }> {
  const saved = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Save the whole job' }).click();
  const file = await saved;
  return { name: file.suggestedFilename(), bytes: readFileSync(await file.path()) };
}

const drop = (page: Page, bytes: Uint8Array, name = 'from elsewhere') =>
  dropFiles(page, [{ name, type: '', bytes }]); // told by its content

/** Everything that the element holds of its takes and a profile made of the newest, whatever order it lies in; as a digest. */
function held(page: Page): Promise<string> {
  return page.evaluate(async () => {
    const bench = document.querySelector('evenfield-bench') as EvenfieldBench;
    const profile = await bench.profile(bench.takes.at(-1)!.reading);
    const inOrder = (_: string, value: unknown) =>
      typeof value === 'object' && value !== null && !Array.isArray(value)
        ? Object.fromEntries(Object.entries(value).sort(([a], [b]) => (a < b ? -1 : 1)))
        : value;
    const text = JSON.stringify([bench.takes, bench.tolerance, profile], inOrder);
    const digest = await crypto.subtle.digest('SHA-256', new TextEncoder().encode(text));
    return `${text.length} letters: ${[...new Uint8Array(digest)].join(' ')}`;
  });
}

const shown = async (page: Page) => ({
  verdict: await page.locator('.verdict').textContent(),
  moves: await page.locator('evenfield-moves').textContent(),
  plan: await page.locator('evenfield-plan').textContent(),
});

test('a job saved here opens on another machine as it was, beside what is kept there', async ({
  page,
  browser,
  baseURL,
  watch,
}) => {
  await openBench(page);
  await chooseSample(page, 'Nearly perfect');
  await chooseSample(page, 'Two unequal lights');
  await page.getByRole('textbox', { name: 'Note on take 2' }).fill('grid cloth');
  await page.getByRole('textbox', { name: 'Note on take 2' }).blur();
  const [before, all] = [await shown(page), await held(page)];
  const job = await savedJob(page);
  expect(job.name).toBe('two-unequal-lights.job.jsonl.gz');
  console.log(
    `measured: a job of two takes is ${(job.bytes.length / 1024).toFixed(0)} KB, ${(gunzipSync(job.bytes).length / 1024).toFixed(0)} KB unpacked`,
  );

  const elsewhere = await browser.newContext({ baseURL: baseURL! });
  const other = await elsewhere.newPage();
  await openBench(other);
  await chooseSample(other, 'Tinted sheet');
  await drop(other, job.bytes);
  await expect(other.getByRole('textbox', { name: 'Note' }).last()).toHaveValue('grid cloth');
  await waitForVerdict(other);
  expect(await shown(other)).toEqual(before);
  expect(await held(other)).toBe(all);
  expect(await savedJob(other)).toMatchObject({ name: job.name });

  // gone on with, and kept beside what was there
  await chooseSample(other, 'Clipped');
  expect(await takeIds(other)).toEqual(['take-1', 'take-2', 'take-3']);
  await other.waitForTimeout(1500);
  other.on('dialog', (dialog) => dialog.accept());
  await other.reload();
  await expect(other.getByRole('button', { name: /^Go on with 3 takes/ })).toBeVisible();
  await expect(other.getByRole('button', { name: /^Go on with 1 take/ })).toBeVisible();
  await elsewhere.close();
  expect(watch.requests.length).toBeGreaterThan(0);
});

test('a job that is damaged or of another schema is refused by name, and all that was there stays', async ({
  page,
}) => {
  await openBench(page);
  await chooseSample(page, 'Nearly perfect');
  const job = await savedJob(page);
  const text = gunzipSync(job.bytes).toString('utf8');
  const errors = await noteErrors(page);
  const all = await held(page);
  const bent = Buffer.from(job.bytes);
  bent[bent.length >> 1]! ^= 4;
  const cases = [
    [job.bytes.subarray(0, job.bytes.length / 2), 'unreadable-file', 'It is damaged'],
    [bent, 'unreadable-file', 'It is damaged'],
    [
      gzipSync(text.replace('evenfield.job/1', 'evenfield.job/3')),
      'unsupported-file',
      'a newer Evenfield: a job file of version 3, and this one opens version 1',
    ],
    [
      gzipSync(text.replace('evenfield.job/1', 'evenfield.job/0')),
      'unsupported-file',
      'an older Evenfield: a job file of version 0, and this one opens version 1',
    ],
    [gzipSync('{}\n'), 'unreadable-file', 'and is none'],
  ] as const;
  for (const [i, [bytes, code, says]] of cases.entries()) {
    await drop(page, bytes, `job ${i}.gz`);
    await expect(page.getByRole('alert').getByText(`job ${i}.gz`)).toBeVisible();
    await expect(page.getByRole('alert').getByText(says)).toBeVisible();
    expect((await errors()).at(-1)).toMatchObject({ code, fileName: `job ${i}.gz` });
    expect(await held(page)).toBe(all);
  }
  page.on('dialog', (dialog) => dialog.accept());
  await page.waitForTimeout(1500);
  await page.reload();
  await page.getByRole('button', { name: /^Go on with 1 take/ }).click();
  await waitForVerdict(page);
  expect(await held(page)).toBe(all);
});

test('a job opens by the picker; without room beside takes it is refused, on an empty page it is read all the same', async ({
  page,
}) => {
  await openBench(page);
  await chooseSample(page, 'Nearly perfect');
  const job = await savedJob(page);
  await page.addInitScript(() => {
    IDBObjectStore.prototype.put = () => {
      throw new DOMException('full', 'QuotaExceededError');
    };
  });
  page.on('dialog', (dialog) => dialog.accept());
  await page.reload();
  await page
    .locator('evenfield-start input[type=file]')
    .setInputFiles({ name: 'a.gz', mimeType: '', buffer: job.bytes });
  await waitForVerdict(page);
  expect(await takeIds(page)).toEqual(['take-1']);
  await chooseSample(page, 'Tinted sheet');
  await drop(page, job.bytes);
  await expect(page.getByText('The job was not opened')).toBeVisible();
  expect(await takeIds(page)).toEqual(['take-1', 'take-2']);
});
