import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import type { Page, Worker } from '@playwright/test';
import { SERVED_HEADERS } from '../../src/screen/page-policy.ts';
import { builtSite, DIST, type ReceivedRequest } from './built-site.ts';
import { expect, openBench, test } from './open-bench.ts';
import { correctOne, readEachKind } from './whole-job.ts';

test.use({ serviceWorkers: 'allow' });

const received: ReceivedRequest[] = [];
test.use({
  // biome-ignore lint/correctness/noEmptyPattern: Playwright tells fixtures by this pattern
  baseURL: async ({}, use) => {
    received.length = 0;
    const site = await builtSite(DIST, SERVED_HEADERS, (request) => received.push(request));
    await use(site.address);
    await site.close();
  },
});

const builtFiles = new Set(
  readdirSync(DIST, { recursive: true, encoding: 'utf8' }).map((path) =>
    path === 'index.html' ? '/' : `/${path}`,
  ),
);

test('nothing leaves in the whole job: every request is a GET of a file of the build, with nothing else in it', async ({
  page,
  context,
  baseURL,
}) => {
  test.setTimeout(90_000);
  const seen: string[] = [];
  context.on('request', (request) => {
    if (request.url().startsWith('blob:')) return; // what the page itself made, on this machine
    seen.push(`${request.method()} ${request.url()} ${request.postDataBuffer()?.length ?? 0}`);
  });
  page.on('websocket', (socket) => seen.push(`socket ${socket.url()}`));
  await page.addInitScript(() => {
    const other: string[] = [];
    Object.assign(window, { otherWaysOut: other });
    for (const name of ['RTCPeerConnection', 'WebSocket', 'EventSource', 'WebTransport'] as const) {
      const Original = Reflect.get(window, name);
      if (Original === undefined) continue;
      const watched = new Proxy(Original, {
        construct(target, given) {
          other.push(name);
          return Reflect.construct(target, given);
        },
      });
      Reflect.set(window, name, watched);
    }
    const beacon = Navigator.prototype.sendBeacon;
    Navigator.prototype.sendBeacon = function (...given) {
      other.push('beacon');
      return beacon.apply(this, given);
    };
  });

  await openBench(page);
  await expect(page.locator('evenfield-offline')).toContainText('Ready to be used', { timeout: 20_000 });
  await readEachKind(page);
  await correctOne(page);
  const job = page.waitForEvent('download');
  await page.getByRole('button', { name: /^Save the whole job/ }).click();
  const jobFile = await (await job).path();
  await page.getByLabel('Read another frame…').setInputFiles(jobFile);
  await page.waitForTimeout(1500);

  console.log(
    `measured: ${seen.length} requests in the page and its workers, ${received.length} at the server`,
  );
  expect(seen.length).toBeGreaterThan(20);
  for (const request of seen) {
    const [method, url, bodyBytes] = request.split(' ');
    const { origin, pathname, search } = new URL(url!);
    expect([method, `${origin}/`, search, bodyBytes]).toEqual(['GET', baseURL, '', '0']);
    expect(builtFiles).toContain(pathname);
  }
  for (const { method, address, bodyBytes, headers } of received) {
    expect([method, bodyBytes, headers.cookie]).toEqual(['GET', 0, undefined]);
    expect(headers.referer ?? baseURL).toContain(baseURL);
    expect(builtFiles).toContain(address);
    expect(JSON.stringify(headers).length).toBeLessThan(1500); // nothing is carried in them
  }
  expect(await page.evaluate(() => Reflect.get(window, 'otherWaysOut'))).toEqual([]);
  expect((await linksThatFetch(page)).sort()).toEqual(['apple-touch-icon', 'icon', 'manifest', 'stylesheet']);
  expect(await context.cookies()).toEqual([]);
});

/** What every link of the page is for, in shadow trees too: prefetching and looking up names would show here. */
function linksThatFetch(page: Page): Promise<string[]> {
  return page.evaluate(() => {
    const linksIn = (root: ParentNode): string[] =>
      [...root.querySelectorAll('*')].flatMap((each) => [
        ...(each instanceof HTMLLinkElement ? [each.rel] : []),
        ...(each.shadowRoot ? linksIn(each.shadowRoot) : []),
      ]);
    return linksIn(document);
  });
}

/** What becomes of text made into a script. Later, since what a test runs at once is let through by the browser. */
const scriptsOfText = (at: Page | Worker) =>
  (at as Page).evaluate(
    () =>
      new Promise<string[]>((tried) => {
        setTimeout(() => {
          const made = (work: () => unknown) => {
            try {
              work();
              return 'made';
            } catch (error) {
              return (error as Error).name;
            }
          };
          // biome-ignore lint/security/noGlobalEval: it is to be refused
          const evaluate = globalThis.eval;
          tried([made(() => evaluate('1')), made(() => new Function('return 1'))]);
        });
      }),
  );

test('text becomes no script and no markup: not in the page, nor in any of its workers', async ({
  page,
  watch,
}) => {
  await openBench(page);
  const workers = readdirSync(join(DIST, 'assets')).filter((name) => name.includes('.worker-'));
  expect(workers.length).toBeGreaterThan(1);
  await page.evaluate((names) => {
    const started = names.map((name) => new Worker(`assets/${name}`, { type: 'module' }));
    Object.assign(window, { started });
  }, workers);
  await expect.poll(() => page.workers().length).toBeGreaterThanOrEqual(workers.length);
  const refused = ['EvalError', 'EvalError'];
  expect(await scriptsOfText(page)).toEqual(refused);
  for (const worker of page.workers()) expect(await scriptsOfText(worker)).toEqual(refused);

  const inPage = await page.evaluate(async () => {
    const outcome = (work: () => unknown) => {
      try {
        work();
        return 'done';
      } catch (error) {
        return (error as Error).name;
      }
    };
    return {
      markup: outcome(() => {
        document.body.innerHTML = '<b>no</b>';
      }),
      elsewhere: outcome(() => new Worker('https://elsewhere.example/a.js')),
      ofText: outcome(() => new Worker(URL.createObjectURL(new Blob(['1'])))),
      wasm: await WebAssembly.compile(new Uint8Array([0, 97, 115, 109, 1, 0, 0, 0])).then(
        () => 'compiled',
        (error: Error) => error.name,
      ),
    };
  });
  expect(inPage).toEqual({
    markup: 'TypeError',
    elsewhere: 'TypeError',
    ofText: 'TypeError',
    wasm: 'CompileError',
  });
  // the browser complained of each, and of nothing else
  await expect.poll(() => watch.complaints.length).toBeGreaterThan(0);
  expect(watch.complaints.filter((each) => !/policy|Trusted|unsafe-eval/i.test(each))).toEqual([]);
  watch.complaints.length = 0;
});
