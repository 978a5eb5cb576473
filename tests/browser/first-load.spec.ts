import { gzipSync } from 'node:zlib';
import type { Response } from '@playwright/test';
import { expect, openBench, test, waitForVerdict } from './open-bench.ts';

const MOST_KILOBYTES = 250;
const TEXT = /javascript|json|html|css|svg/;

/** Bytes as a server sends them: text compressed, pictures as they are. */
async function sentBytes(response: Response): Promise<number> {
  const body = await response.body();
  return TEXT.test(response.headers()['content-type'] ?? '') ? gzipSync(body).length : body.length;
}

test(`what is fetched until a first JPEG is read comes to ${MOST_KILOBYTES} kB at most, the foot of its report included`, async ({
  page,
}) => {
  const responses: Response[] = [];
  page.on('response', (response) => {
    if (!response.url().startsWith('blob:')) responses.push(response);
  });
  const total = async () => {
    let bytes = 0;
    for (const response of responses) bytes += await sentBytes(response);
    return bytes / 1000;
  };
  await openBench(page);
  await page.waitForLoadState('networkidle');
  const opened = await total();
  await page.getByLabel('Choose a frame…').setInputFiles('samples/light-panel.jpg');
  await waitForVerdict(page);
  const read = await total();
  await expect(page.getByRole('heading', { name: 'Correct the frames' })).toBeVisible();
  await page.waitForLoadState('networkidle');
  const whole = await total();
  const names = responses.map((response) => new URL(response.url()).pathname);
  console.log(
    `measured: ${opened.toFixed(1)} kB fetched until the page stands, ${read.toFixed(1)} until its first reading, ` +
      `${whole.toFixed(1)} with the foot of the report, in ${names.length} files`,
  );
  // all that has to be among them, so that nothing goes uncounted
  for (const part of [
    /index-.*\.js$/,
    /engine\.worker-.*\.js$/,
    /report-foot-.*\.js$/,
    /samples\.json$/,
    /\.css$/,
  ])
    expect(
      names.some((name) => part.test(name)),
      String(part),
    ).toBe(true);
  expect(names.filter((name) => /libraw|lcms/.test(name))).toEqual([]);
  expect(whole).toBeLessThanOrEqual(MOST_KILOBYTES);
});

test('a foot of the report that can’t be fetched is told of, and fetched when asked again', async ({
  page,
  watch,
}) => {
  await page.route('**/report-foot-*.js', (route) => route.abort());
  await openBench(page);
  await page.getByLabel('Choose a frame…').setInputFiles('samples/light-panel.jpg');
  await waitForVerdict(page);
  const told = page.getByText(
    'The part that compares takes, corrects frames and saves plots could not be fetched',
  );
  await expect(told).toBeVisible();
  await page.unroute('**/report-foot-*.js');
  watch.complaints.length = 0; // the browser's own words about the request
  await page.getByRole('button', { name: 'Try again' }).click();
  await expect(told).toHaveCount(0);
  await expect(page.getByRole('heading', { name: 'Correct the frames' })).toBeVisible();
});

test('a decoder that can’t be fetched is told of as what could not be read, and fetched with the next file', async ({
  page,
  watch,
}) => {
  await page.route('**/decode-png-file-*.js', (route) => route.abort());
  await openBench(page);
  await page.getByLabel('Choose a frame…').setInputFiles('samples/room-spill.png');
  await expect(page.getByRole('alert')).toContainText('The part that reads PNG files could not be fetched');
  await page.unroute('**/decode-png-file-*.js');
  watch.complaints.length = 0;
  await page.getByLabel('Choose a frame…').setInputFiles('samples/room-spill.png');
  await waitForVerdict(page);
});
