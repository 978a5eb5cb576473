import { readdirSync } from 'node:fs';
import type { Page } from '@playwright/test';
import type { Profile } from '../../../src/engine/profile/profile.ts';
import type { FrameReport } from '../../../src/engine/read-frame.ts';
import { UNKNOWN_SETUP } from '../../../src/engine/setup.ts';
import { DEFAULT_TOLERANCE } from '../../../src/engine/tolerances.ts';
import type { CorrectedBlob } from '../../../workers/engine-api.ts';

/** Milliseconds from asking to the reading, and where in between its parts begin. */
export interface ReadingTimes {
  readonly whole: number;
  /** When each phase was first told of, as `ReadPhase` names them, and `look`, the look in small. */
  readonly begins: Readonly<Record<string, number>>;
}

interface Bench extends Window {
  frame: Blob;
  engines: Worker[];
  decoder: Worker;
  report: FrameReport;
  profile: Profile;
  corrected: Blob;
  ask(
    engine: number,
    call: string,
    args: unknown[],
    tell?: (phase: string, isLook: boolean) => void,
  ): Promise<unknown>;
  askDecoder(work: string): Promise<number>;
}

/**
 * Opens a page that has the built engine in two workers of its own, without the tool's own page doing anything, and
 * one more worker that holds the same file for decoding it alone.
 */
export async function openEngine(page: Page, path: string): Promise<void> {
  const headers = {
    'Cross-Origin-Embedder-Policy': 'require-corp',
    'Cross-Origin-Opener-Policy': 'same-origin',
  };
  const body = '<!doctype html><input type="file">';
  await page.route('**/bench-page', (route) => route.fulfill({ headers, contentType: 'text/html', body }));
  await page.route('**/bench-decoder.js', (route) =>
    route.fulfill({ headers, contentType: 'text/javascript', body: DECODER }),
  );
  await page.goto('./bench-page');
  await page.locator('input').setInputFiles(path); // larger than what can be handed over as a response
  const engine = readdirSync('dist/assets').find((name) => /^engine\.worker-.*\.js$/.test(name))!;
  await page.evaluate(startBench, engine);
}

/** Reads the file once, as the tool does but for the drawing. */
export function timeReading(page: Page, name: string): Promise<ReadingTimes> {
  const judging = { setup: UNKNOWN_SETUP, tolerance: DEFAULT_TOLERANCE };
  return page.evaluate(
    async ([name, judging]) => {
      const bench = window as unknown as Bench;
      const begins: Record<string, number> = {};
      const start = performance.now();
      const tell = (phase: string, isLook: boolean) => {
        const what = isLook ? 'look' : phase;
        if (begins[what] === undefined) begins[what] = performance.now() - start;
      };
      const args = [[{ name, blob: bench.frame }], judging];
      bench.report = (await bench.ask(0, 'read', args, tell)) as FrameReport;
      return { whole: performance.now() - start, begins };
    },
    [name, judging] as const,
  );
}

/** Makes the profile to correct by, of the frame itself. */
export function makeProfile(page: Page): Promise<Profile> {
  return page.evaluate(async () => {
    const bench = window as unknown as Bench;
    bench.profile = (await bench.ask(0, 'profile', [bench.report])) as Profile;
    return bench.profile;
  });
}

/** Corrects the file to a TIFF of 16 bits, as often at once as there are to be workers. */
export function timeCorrecting(page: Page, atOnce: 1 | 2): Promise<number> {
  return page.evaluate(async (atOnce) => {
    const bench = window as unknown as Bench;
    const start = performance.now();
    const correct = (engine: number) =>
      bench.ask(engine, 'correct', [{ name: 'frame.jpg', blob: bench.frame }, bench.profile, {}, null]);
    const made = await Promise.all(Array.from({ length: atOnce }, (_, engine) => correct(engine)));
    bench.corrected = (made[0] as CorrectedBlob).blob;
    return performance.now() - start;
  }, atOnce);
}

/** Writes what was corrected last into a file of the browser's, and nothing else. */
export function timeWriting(page: Page): Promise<number> {
  return page.evaluate(async () => {
    const samples = new Blob([await (window as unknown as Bench).corrected.arrayBuffer()]);
    const folder = await navigator.storage.getDirectory();
    const start = performance.now();
    const writable = await (await folder.getFileHandle('corrected.tif', { create: true })).createWritable();
    await writable.write(samples);
    await writable.close();
    const ms = performance.now() - start;
    await folder.removeEntry('corrected.tif');
    return ms;
  });
}

/** Has the browser decode the file into RGBA (`jpeg`), or its LibRaw module open and unpack it, and nothing else. */
export function timeDecoding(page: Page, work: 'jpeg' | 'libraw'): Promise<number> {
  return page.evaluate((work) => (window as unknown as Bench).askDecoder(work), work);
}

/** Runs in the page. The engine's door is comlink's: its messages are made by hand, as the page is no module. */
async function startBench(engineName: string): Promise<void> {
  const bench = window as unknown as Bench;
  const bytes = await document.querySelector('input')!.files![0]!.arrayBuffer();
  bench.frame = new Blob([bytes]);
  bench.engines = [0, 1].map(() => new Worker(`./assets/${engineName}`, { type: 'module' }));
  bench.decoder = new Worker('./bench-decoder.js', { type: 'module' });
  bench.decoder.postMessage(bytes, [bytes]);
  const raw = (value: unknown) => ({ type: 'RAW', value });
  bench.ask = (engine, call, args, tell) =>
    new Promise((resolve, reject) => {
      const worker = bench.engines[engine]!;
      const { port1, port2 } = new MessageChannel();
      const id = String(Math.random());
      port1.onmessage = ({ data }) => {
        if (data.type === 'APPLY') tell!(data.argumentList[0].value, data.argumentList.length > 2);
        port1.postMessage({ id: data.id, ...raw(undefined) });
      };
      const answered = ({ data }: MessageEvent) => {
        if (data.id !== id) return;
        worker.removeEventListener('message', answered);
        port1.close();
        if (data.type === 'HANDLER') reject(new Error(JSON.stringify(data.value)));
        else resolve(data.value);
      };
      worker.addEventListener('message', answered);
      const report = tell ? [{ type: 'HANDLER', name: 'proxy', value: port2 }] : [];
      const argumentList = [...args.map(raw), ...report];
      worker.postMessage({ id, type: 'APPLY', path: [call], argumentList }, tell ? [port2] : []);
    });
  bench.askDecoder = (work) =>
    new Promise((resolve, reject) => {
      bench.decoder.onmessage = ({ data }) =>
        typeof data === 'number' ? resolve(data) : reject(new Error(String(data)));
      bench.decoder.postMessage(work);
    });
}

/** Runs in a worker of its own; holds the file's bytes, so that reading them is not timed. */
const DECODER = `
let data = null;
const work = {
  async jpeg() {
    const start = performance.now();
    const decoder = new ImageDecoder({ data, type: 'image/jpeg', colorSpaceConversion: 'none' });
    const { image } = await decoder.decode({ frameIndex: 0, completeFramesOnly: true });
    const pixels = new Uint8Array(image.codedWidth * image.codedHeight * 4);
    await image.copyTo(pixels, { format: 'RGBA' });
    image.close();
    decoder.close();
    return performance.now() - start;
  },
  async libraw() {
    const { default: make } = await import('./libraw/libraw.js');
    const silent = () => {};
    delete Atomics.waitAsync; // as the tool does, which says why
    const { LibRaw } = await make({
      locateFile: () => new URL('./libraw/libraw.wasm', self.location.href).href,
      wasmMemory: new WebAssembly.Memory({ initial: 4096, maximum: 32768, shared: true }),
      ...{ print: silent, printErr: silent },
    });
    const start = performance.now();
    const file = new LibRaw();
    file.open(data, {});
    file.rawImageData();
    const end = performance.now();
    file.delete();
    return end - start;
  },
};
onmessage = ({ data: wish }) => {
  if (wish instanceof ArrayBuffer) data = new Uint8Array(wish);
  else work[wish]().then(postMessage, (error) => postMessage(String(error?.stack ?? error)));
};
`;
