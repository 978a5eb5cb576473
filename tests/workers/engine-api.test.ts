import { afterEach, expect, test } from 'vitest';
import { engineApi } from '../../workers/engine-api.ts';
import { EngineClient } from '../../workers/engine-client.ts';
import { latticeOf, profileOf } from '../engine/correct/profile-of.ts';
import { decoded } from '../engine/export/read-back.ts';
import { noiseSamples, pngFile } from '../engine/intake/png-bytes.ts';
import { type FakeWorker, fakeWorker } from './fake-worker.ts';

const workers: FakeWorker[] = [];
afterEach(() => {
  for (const worker of workers.splice(0)) worker.terminate();
});

const profile = profileOf(latticeOf(2, 2, () => [0.5, 0.5, 0.5]));
const withEngine = () =>
  new EngineClient(() => {
    const worker = fakeWorker(engineApi);
    workers.push(worker);
    return worker;
  });

test('EngineClient.correct(file, profile) hands a corrected file over by reference', async () => {
  const engine = withEngine();
  const samples = noiseSamples(40 * 30 * 3, 15);
  const bytes = pngFile({ widthPx: 40, heightPx: 30, depth: 16, colourType: 2, samples });
  const { blob, ...facts } = await engine.correct(
    { name: 'a.png', blob: new Blob([bytes as Uint8Array<ArrayBuffer>]) },
    profile,
    { bits: 16 },
  );
  expect(blob.type).toBe('image/tiff');
  expect(facts).toMatchObject({ extension: 'tif', widthPx: 40, heightPx: 30 });
  const back = await decoded(new Uint8Array(await blob.arrayBuffer()));
  expect(back.samples.length).toBe(samples.length);
  expect(back.samples.some((code, i) => code > samples[i]!)).toBe(true);
  const spoilt = { ...profile, schema: 'evenfield.profile/9' } as unknown as typeof profile;
  await expect(
    engine.correct({ name: 'a.png', blob: new Blob([bytes as Uint8Array<ArrayBuffer>]) }, spoilt),
  ).rejects.toMatchObject({
    code: 'wrong-profile',
  });
});

test('EngineClient.correct(file, profile, options) tells how far it is while it goes on', async () => {
  const bytes = pngFile({ widthPx: 600, heightPx: 400, depth: 16, colourType: 2 }) as Uint8Array<ArrayBuffer>;
  const phases = new Set<string>();
  // what is told when all is over is not heard any more: a PNG takes its time to be written
  await withEngine().correct(
    { name: 'a.png', blob: new Blob([bytes]) },
    profile,
    { format: 'png' },
    { onProgress: (phase) => phases.add(phase) },
  );
  expect([...phases].slice(0, 3)).toEqual(['opening', 'decoding', 'correcting']);
});

test('EngineClient.gainPicture(profile, size) and rampFigures(profile) hand over what can be used elsewhere', async () => {
  const engine = withEngine();
  const { blob, largestStops, says } = await engine.gainPicture(
    profile,
    { widthPx: 20, heightPx: 10 },
    'png',
  );
  expect(blob.type).toBe('image/png');
  expect(largestStops).toBeCloseTo(0.5, 12);
  expect(says).toContain('2^0.5000');
  const { samples } = await decoded(new Uint8Array(await blob.arrayBuffer()));
  expect(samples.every((code) => code === 65535)).toBe(true);
  expect(await engine.rampFigures(profile)).toContain('empty-sweep.png');
});

test('EngineClient.read(files) refuses a file of 2 GB by its size, before a byte of it is read', async () => {
  let wasRead = false;
  const huge = {
    size: 2 ** 31,
    arrayBuffer: () => {
      wasRead = true;
      return Promise.reject(new Error('read'));
    },
  } as unknown as Blob;
  const failure = await engineApi
    .openToCorrect({ name: 'huge.tif', blob: huge })
    .catch((error: unknown) => error);
  expect(failure).toMatchObject({ code: 'too-large', detail: { fileName: 'huge.tif' } });
  expect((failure as Error).message).toContain('has 2.0 GB; at most 1.5 GB are read');
  expect(wasRead).toBe(false);
});
