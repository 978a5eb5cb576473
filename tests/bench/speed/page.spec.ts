import { expect, type Page, test } from '@playwright/test';
import type { EvenfieldBench } from '../../../src/screen/evenfield-bench.ts';
import { jpegFile } from './bench-files.ts';
import { openEngine, timeDecoding } from './engine-beside-page.ts';
import { interleaved, ROUNDS, report } from './timed-rounds.ts';

const FIRST_MAP = 'first map on the screen, coarse';
const REPORT = 'report on the screen';
const DECODING = 'the browser decoding alone';
const LIMIT_LINE = 'another limit: its line on the map';
const LIMIT = 'another limit: judged and drawn';
const SETUP = 'another set-up: judged and drawn';
const OTHER_MAP = 'the other map, with contours of its own step';

interface Watched extends Window {
  bench: EvenfieldBench;
  longest: number;
  /** The deepest element that these tags lead to, each inside the one before. */
  inside(...tags: string[]): (Element & Record<string, unknown>) | null;
  /** Milliseconds from now until the picture is on the screen that shows what holds then. */
  untilPainted(holds: () => boolean): Promise<number>;
}

for (const megapixels of [24, 60])
  test(`what the page shows of ${megapixels} megapixels, and when`, async ({ page, browser }) => {
    const file = jpegFile(megapixels, '4:4:4');
    const path = await file.path();
    const beside = await browser.newPage();
    await openEngine(beside, path);
    await openTool(page);
    const longest: number[] = [];
    const times = await interleaved({
      [REPORT]: async () => {
        const shown = watchShowing(page);
        await page.waitForTimeout(50);
        await page.getByLabel(/Choose a frame…|Read another frame…/).setInputFiles(path);
        const { begun, looked, reported } = await shown;
        longest.push(await longestTask(page));
        const ms: Record<string, number> = { [REPORT]: reported - begun };
        if (!Number.isNaN(looked)) ms[FIRST_MAP] = looked - begun;
        return ms;
      },
      [DECODING]: () => timeDecoding(beside, 'jpeg'),
    });
    await beside.close();
    report(`${file.name} on the page`, { ...times, 'longest task of the page': longest.slice(1) }, [
      { of: FIRST_MAP, against: DECODING, atMost: 0.8 },
      { of: 'longest task of the page', atMost: 50 },
    ]);
    expect(times[REPORT]).toHaveLength(ROUNDS);
  });

test('how soon another limit, set-up or map is drawn', async ({ page }) => {
  const path = await jpegFile(24, '4:4:4').path();
  await openTool(page);
  const shown = watchShowing(page);
  await page.waitForTimeout(50);
  await page.getByLabel('Choose a frame…').setInputFiles(path);
  await shown;
  await longestTask(page);
  let turn = 0;
  const times = await interleaved({
    [LIMIT_LINE]: () => page.evaluate(changeLimit, 0.25 + 0.03 * ++turn).then(asTimes),
    [SETUP]: () => page.evaluate(changeSetup, 600 + 40 * ++turn),
    [OTHER_MAP]: () => page.evaluate(changeMap),
  });
  const longest = [await longestTask(page)];
  report('24 MP JPEG 4:4:4, judged anew', { ...times, 'longest task of the page': longest }, [
    { of: LIMIT_LINE, atMost: 50 },
    { of: LIMIT, atMost: 50 },
    { of: SETUP, atMost: 50 },
    { of: OTHER_MAP, atMost: 50 },
    { of: 'longest task of the page', atMost: 50 },
  ]);
  expect(times[SETUP]).toHaveLength(ROUNDS);
});

const asTimes = ([line, judged]: readonly [number, number]) => ({ [LIMIT_LINE]: line, [LIMIT]: judged });

async function openTool(page: Page): Promise<void> {
  await page.goto('./');
  await page.waitForFunction(() => customElements.get('evenfield-bench') !== undefined);
  await page.waitForLoadState('networkidle');
  await page.evaluate(() => {
    const watched = window as unknown as Watched;
    watched.bench = document.querySelector('evenfield-bench') as EvenfieldBench;
    watched.longest = 0;
    new PerformanceObserver((list) => {
      for (const { duration } of list.getEntries()) watched.longest = Math.max(watched.longest, duration);
    }).observe({ type: 'longtask' });
    watched.inside = (...tags) =>
      tags.reduce<Element | null>(
        (host, tag) => host?.shadowRoot?.querySelector(tag) ?? null,
        watched.bench,
      ) as ReturnType<Watched['inside']>;
    watched.untilPainted = (holds) =>
      new Promise((resolve) => {
        const start = performance.now();
        const look = () => {
          if (!holds()) return void requestAnimationFrame(look);
          const { port1, port2 } = new MessageChannel(); // its task comes right after the picture
          port1.onmessage = () => resolve(performance.now() - start);
          port2.postMessage(null);
        };
        requestAnimationFrame(look);
      });
  });
}

/** The longest task of the page since it was last asked for, of those over 50 ms; 0 where there was none. */
async function longestTask(page: Page): Promise<number> {
  await page.waitForTimeout(1500); // what follows the report is drawn too, and a task is told of after it has ended
  return page.evaluate(() => {
    const watched = window as unknown as Watched;
    const { longest } = watched;
    watched.longest = 0;
    return longest;
  });
}

/** When a file was chosen, when a first map of it was on the screen, and when its report was. */
function watchShowing(page: Page): Promise<{ begun: number; looked: number; reported: number }> {
  return page.evaluate(async () => {
    const { bench, inside, untilPainted } = window as unknown as Watched;
    const takes = bench.takes.length;
    await new Promise((resolve) => window.addEventListener('input', resolve, { once: true, capture: true }));
    const begun = performance.now();
    let looked = Number.NaN;
    const isLookThere = () => inside('evenfield-status', 'evenfield-first-look', 'canvas') !== null;
    const isReportThere = () =>
      bench.takes.length > takes && inside('evenfield-report', 'evenfield-verdict') !== null;
    void untilPainted(isLookThere).then(() => {
      looked = performance.now();
    });
    await untilPainted(isReportThere);
    return { begun, looked, reported: performance.now() };
  });
}

/** Runs in the page; so do the others. */
async function changeLimit(limit: number): Promise<[line: number, judged: number]> {
  const { bench, inside, untilPainted } = window as unknown as Watched;
  const drawing = inside(
    'evenfield-report',
    'evenfield-map',
    'evenfield-map-frame',
    'evenfield-map-drawing',
  )!;
  const before = drawing.plot;
  let isJudged = false;
  bench.addEventListener('evenfield-reading', () => (isJudged = true), { once: true });
  const line = untilPainted(() => drawing.plot !== before);
  const judged = untilPainted(() => isJudged);
  bench.tolerance = { ...bench.tolerance, measure: 'range', limit };
  const times = await Promise.all([line, judged]);
  await new Promise((resolve) => setTimeout(resolve, 500)); // its own drawing is no part of the next time
  return times;
}

async function changeSetup(lampDistanceMm: number): Promise<number> {
  const { bench, untilPainted } = window as unknown as Watched;
  let isJudged = false;
  bench.addEventListener('evenfield-reading', () => (isJudged = true), { once: true });
  const judged = untilPainted(() => isJudged);
  bench.setup = { ...bench.setup, frameWidthMm: 1000, lampDistanceMm: [lampDistanceMm] };
  const ms = await judged;
  await new Promise((resolve) => setTimeout(resolve, 1000));
  return ms;
}

async function changeMap(): Promise<number> {
  const { inside, untilPainted } = window as unknown as Watched;
  const map = inside('evenfield-report', 'evenfield-map')!;
  const drawing = inside(
    'evenfield-report',
    'evenfield-map',
    'evenfield-map-frame',
    'evenfield-map-drawing',
  )!;
  const before = drawing.plot;
  const other = [...map.shadowRoot!.querySelectorAll('input')].find(
    ({ type, checked }) => type === 'radio' && !checked,
  )!;
  const drawn = untilPainted(() => drawing.plot !== before);
  other.click();
  const ms = await drawn;
  await new Promise((resolve) => setTimeout(resolve, 500));
  return ms;
}
