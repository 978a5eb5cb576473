import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { openRawFile } from '../../workers/raw-decoder.ts';
import { dngOf } from '../synthetic/bayer-mosaic.ts';

vi.mock('libraw-wasm/dist/libraw.js?url', async () => {
  const { createRequire } = await import('node:module');
  const { pathToFileURL } = await import('node:url');
  const found = createRequire(import.meta.url).resolve('libraw-wasm/dist/libraw.js');
  return { default: pathToFileURL(found).href };
});
vi.mock('libraw-wasm/dist/libraw.wasm?url', () => ({ default: 'https://tool.example/libraw/libraw.wasm' }));

const wasm = readFileSync(createRequire(import.meta.url).resolve('libraw-wasm/dist/libraw.wasm'));
let answers: (() => Response)[] = [];
let asked: string[] = [];

const served = (contentType: string) => () =>
  new Response(wasm, { headers: { 'content-type': contentType } });

beforeEach(() => {
  vi.resetModules();
  asked = [];
  vi.stubGlobal('fetch', async (url: string) => {
    asked.push(url);
    return answers.shift()!();
  });
});
afterEach(() => vi.unstubAllGlobals());

async function mosaicOf(bytes: Uint8Array) {
  const { loadLibraw } = await import('../../workers/load-libraw.ts');
  const { makeLibraw, options } = await loadLibraw();
  const raw = await openRawFile(makeLibraw, options, bytes);
  const mosaic = await raw.mosaic();
  raw.dispose();
  return mosaic?.data;
}

const dngWithSeed = (seed: number) =>
  dngOf(() => [0.4, 0.4, 0.4], {
    ...{ widthPx: 64, heightPx: 48, order: 'RGGB', bits: 14, white: 15_000, seed },
    black: { rows: 1, columns: 1, levels: [512] },
  });

test.each(['application/wasm', 'text/plain'])(
  'loadLibraw() fetches its code once for all files, served as %s',
  async (type) => {
    answers = [served(type)];
    const first = await mosaicOf(dngWithSeed(1));
    const other = await mosaicOf(dngWithSeed(2));
    const again = await mosaicOf(dngWithSeed(1));
    expect(asked).toEqual(['https://tool.example/libraw/libraw.wasm']);
    expect(first).toHaveLength(64 * 48);
    expect(other).not.toEqual(first);
    expect(again).toEqual(first);
  },
);

test('loadLibraw() says what kept its code from coming, and asks anew for the next file', async () => {
  answers = [() => new Response('none', { status: 404 }), served('application/wasm')];
  await expect(mosaicOf(dngWithSeed(1))).rejects.toThrow('the server answers 404');
  expect(await mosaicOf(dngWithSeed(1))).toHaveLength(64 * 48);
  expect(asked).toHaveLength(2);
});

test('loadLibraw() hands on what keeps an instance from being made', async () => {
  const empty = Uint8Array.of(0, 0x61, 0x73, 0x6d, 1, 0, 0, 0); // a module with nothing in it
  answers = [() => new Response(empty, { headers: { 'content-type': 'application/wasm' } })];
  await expect(mosaicOf(dngWithSeed(1))).rejects.toMatchObject({ code: 'worker-lost' });
});
