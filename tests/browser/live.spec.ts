import { rmSync } from 'node:fs';
import { type Browser, chromium, type Page, test as plainTest, type TestInfo } from '@playwright/test';
import { fieldTruth } from '../synthetic/field-truth.ts';
import type { KnownField } from '../synthetic/known-field.ts';
import { writeVideo } from './made-video.ts';
import { A_READING, expect, openBench, takeIds, test } from './open-bench.ts';
import { takeAway } from './without-apis.ts';

const [WIDTH, HEIGHT] = [1920, 1080];
const LEAST_PICTURES_PER_S = 15;
const MOST_BUSY_PERCENT = 60;
const LEAST_RIGHT_EV = 0.02;

/** A lamp's light, brightest at `x`. */
const lampAt =
  (x: number): KnownField =>
  (px, py) => {
    const light = 0.7 / (1 + 1.1 * ((px - x) ** 2 + (0.5625 * (py - 0.45)) ** 2)) ** 2;
    return [light * 0.98, light, light * 0.97];
  };

const AT_REST = lampAt(0.5);
const MOVES = 12;

/** A browser whose camera shows a video in which the light is moved and then left alone. */
async function withCamera(testInfo: TestInfo, video: string): Promise<Browser> {
  const { launchOptions } = testInfo.project.use;
  return chromium.launch({
    ...launchOptions,
    args: [
      ...(launchOptions?.args ?? []),
      '--use-fake-ui-for-media-stream',
      '--use-fake-device-for-media-stream',
      `--use-file-for-fake-video-capture=${video}`,
    ],
  });
}

const look = (page: Page) => page.getByRole('button', { name: 'Look through a camera…' }).click();
const live = (page: Page) => page.getByRole('region', { name: 'Live' });

// in a browser of its own, with a camera that is made believe; a machine that is busy just then is given two more tries
plainTest.describe.configure({ retries: 2 });

plainTest(
  'a light is followed while it is moved, read right once it stands, and held as a take',
  async ({ baseURL }, testInfo) => {
    test.setTimeout(120_000);
    const video = testInfo.outputPath('moved-light.y4m');
    writeVideo(video, {
      ...{ widthPx: WIDTH, heightPx: HEIGHT, picturesPerSecond: 30 },
      shown: [
        ...Array.from({ length: MOVES }, (_, i) => ({ field: lampAt(0.2 + (0.3 * i) / MOVES), pictures: 1 })),
        { field: AT_REST, pictures: 120 },
      ],
    });
    const browser = await withCamera(testInfo, video);
    try {
      const page = await browser.newPage({ baseURL: baseURL!, viewport: { width: 1440, height: 900 } });
      const requests: string[] = [];
      page.on('request', (request) => requests.push(request.url()));
      await openBench(page);
      await look(page);
      await expect(live(page).getByText('The light moves.')).toBeVisible({ timeout: 20_000 });
      await expect(live(page).getByText(/over (?:[4-6]\d) pictures/)).toBeVisible({ timeout: 20_000 });
      const seen = await page.evaluate(() => {
        const element = document
          .querySelector('evenfield-bench')!
          .shadowRoot!.querySelector('evenfield-incoming')!
          .shadowRoot!.querySelector('evenfield-live')!;
        return structuredClone(element.view.step!);
      });
      const { columns, rows } = seen.reading;
      const truth = fieldTruth(AT_REST, { columns, rows, widthPx: WIDTH, heightPx: HEIGHT }).spreadEv;
      const { spreadEv, plusMinusEv } = seen.reading.falloff;
      console.log(
        `measured: live spread ${spreadEv.toFixed(4)} EV of ${truth.toFixed(4)}, ± ${seen.reading.scatterEv!.toFixed(4)} by scatter and coding; ` +
          `${seen.picturesPerSecond.toFixed(1)} pictures a second, the worker ${(100 * seen.busyShare).toFixed(0)} % busy`,
      );
      expect(Math.abs(spreadEv - truth)).toBeLessThanOrEqual(LEAST_RIGHT_EV);
      expect(Math.abs(spreadEv - truth)).toBeLessThanOrEqual(plusMinusEv);
      expect(seen.widthPx).toBe(WIDTH);
      expect(seen.picturesPerSecond).toBeGreaterThanOrEqual(LEAST_PICTURES_PER_S);
      expect(100 * seen.busyShare).toBeLessThanOrEqual(MOST_BUSY_PERCENT);

      expect(await takeIds(page)).toHaveLength(0);
      await live(page).getByRole('button', { name: 'Hold as a take' }).click();
      await expect(page.locator('.verdict')).toBeVisible(A_READING);
      expect(await takeIds(page)).toHaveLength(1);
      const kept = await page.evaluate(async () => {
        const root = await navigator.storage.getDirectory();
        const names: string[] = [];
        for await (const name of (root as unknown as { keys(): AsyncIterable<string> }).keys())
          names.push(name);
        const { takes } = document.querySelector('evenfield-bench')!;
        return { names, held: takes.map(({ reading }) => reading.frame.name) };
      });
      expect(kept.names).toEqual([]);
      expect(kept.held[0]).toMatch(/^held-\d\d-\d\d-\d\d\.jpg$/);
      expect(requests.filter((url) => !url.startsWith(baseURL!) && !url.startsWith('blob:'))).toEqual([]);

      await live(page).getByRole('button', { name: 'Stop looking' }).click();
      await expect(live(page)).toHaveCount(0);
      expect(page.workers().some((worker) => worker.url().includes('live'))).toBe(false);
    } finally {
      await browser.close();
      rmSync(video, { force: true });
    }
  },
);

plainTest(
  'one of two cameras is chosen, and holds its exposure where it lets that be done',
  async ({ baseURL }, testInfo) => {
    const { launchOptions } = testInfo.project.use;
    const browser = await chromium.launch({
      ...launchOptions,
      args: [
        ...(launchOptions?.args ?? []),
        '--use-fake-ui-for-media-stream',
        '--use-fake-device-for-media-stream=device-count=2',
      ],
    });
    try {
      const page = await browser.newPage({ baseURL: baseURL! });
      await openBench(page);
      await look(page);
      await expect(
        live(page).getByText('Exposure: held; white balance: not told by the camera.'),
      ).toBeVisible();
      const which = live(page).getByRole('combobox', { name: 'Which camera' });
      const names = await which.locator('option').allTextContents();
      expect(names).toHaveLength(2);
      await which.selectOption(names[1]!);
      await expect(which.locator('option:checked')).toHaveText(names[1]!);
      await expect(live(page).getByText(/over \d+ pictures|The light moves|Settling/)).toBeVisible();
    } finally {
      await browser.close();
    }
  },
);

test('a camera that is refused, and none at all, are told in plain words', async ({ page, context }) => {
  await openBench(page);
  await context.clearPermissions();
  await look(page);
  await expect(
    page.getByText(/was not allowed to use a camera|There is no camera to look through/),
  ).toBeVisible();
  await page.evaluate(() => {
    navigator.mediaDevices.getUserMedia = () => Promise.reject(new DOMException('', 'NotAllowedError'));
  });
  await look(page);
  await expect(page.getByText('was not allowed to use a camera')).toBeVisible();
  await page.evaluate(() => {
    navigator.mediaDevices.getUserMedia = () => Promise.reject(new DOMException('', 'NotFoundError'));
  });
  await look(page);
  await expect(page.getByText('There is no camera to look through')).toBeVisible();
});

plainTest(
  'where the browser hands no pictures out by themselves, they are taken off a video, read as right, and held',
  async ({ baseURL }, testInfo) => {
    const video = testInfo.outputPath('still-light.y4m');
    const size = { widthPx: 640, heightPx: 360 };
    writeVideo(video, { ...size, picturesPerSecond: 15, shown: [{ field: AT_REST, pictures: 30 }] });
    const browser = await withCamera(testInfo, video);
    try {
      const page = await browser.newPage({ baseURL: baseURL! });
      await takeAway(page, { inPage: ['MediaStreamTrackProcessor'] });
      await openBench(page);
      await look(page);
      await expect(live(page).getByText('only while this page is in sight')).toBeVisible();
      await expect(live(page).getByText(/over (?:[2-9]\d) pictures/)).toBeVisible({ timeout: 20_000 });
      const { reading, picturesPerSecond } = await page.evaluate(() => {
        const element = document
          .querySelector('evenfield-bench')!
          .shadowRoot!.querySelector('evenfield-incoming')!
          .shadowRoot!.querySelector('evenfield-live')!;
        return structuredClone(element.view.step!);
      });
      const { columns, rows, falloff } = reading;
      const truth = fieldTruth(AT_REST, { columns, rows, ...size }).spreadEv;
      console.log(
        `measured: off a video, live spread ${falloff.spreadEv.toFixed(4)} EV of ${truth.toFixed(4)}, ${picturesPerSecond.toFixed(1)} pictures a second`,
      );
      expect(Math.abs(falloff.spreadEv - truth)).toBeLessThanOrEqual(LEAST_RIGHT_EV);
      await live(page).getByRole('button', { name: 'Hold as a take' }).click();
      await expect(page.locator('.verdict')).toBeVisible(A_READING);
      await live(page).getByRole('button', { name: 'Stop looking' }).click();
      await expect(live(page)).toHaveCount(0);
      expect(page.workers().some((worker) => worker.url().includes('live'))).toBe(false);
    } finally {
      await browser.close();
      rmSync(video, { force: true });
    }
  },
);
