import { afterEach, expect, test } from 'vitest';
import { correctedName } from '../../src/sources/corrected-name.ts';
import { FolderWriter } from '../../src/sources/write-folder.ts';
import { correctBatch } from '../../workers/correct-batch.ts';
import type { CorrectedBlob, NamedBlob } from '../../workers/engine-api.ts';
import { EngineClient } from '../../workers/engine-client.ts';
import { latticeOf, profileOf } from '../engine/correct/profile-of.ts';
import { FolderInMemory } from '../sources/folder-in-memory.ts';
import { type FakeWorker, fakeWorker } from './fake-worker.ts';

const workers: FakeWorker[] = [];
afterEach(() => {
  for (const worker of workers.splice(0)) worker.terminate();
});

/** Ten frames corrected by two workers into a folder that something befalls at the fourth write. */
async function tenFiles(folder: FolderInMemory, befalls: (writes: number) => void, signal?: AbortSignal) {
  const client = () =>
    new EngineClient(() => {
      const correct = async ({ name }: NamedBlob) => ({
        blob: new Blob([`light of ${name}`]),
        extension: 'tif',
        flags: [],
      });
      const worker = fakeWorker({ correct });
      workers.push(worker);
      return worker;
    });
  const clients = [client(), client()];
  let writes = 0;
  folder.beforeWrite = () => befalls(++writes);
  const writer = new FolderWriter(folder);
  const files = Array.from({ length: 10 }, (_, i) => ({
    name: `tumbler-${i}.jpg`,
    blob: new Blob(['frame']),
  }));
  return correctBatch(files, {
    profile: profileOf(latticeOf(2, 2, () => [0, 0, 0])),
    options: {},
    clients,
    write: ({ name }, { blob, extension }: CorrectedBlob, stop) =>
      writer.write(correctedName(name, extension), blob, stop),
    ...(signal && { signal }),
  });
}

const wholeOnly = (folder: FolderInMemory) =>
  [...folder.files].every(([name, text]) => text === `light of ${name.replace('.corrected.tif', '.jpg')}`);

for (const [trouble, code] of [
  ['full', 'storage-full'],
  ['revoked', 'cannot-write'],
] as const)
  test(`a batch whose folder is ${trouble} for two files writes the other eight, and nothing half`, async () => {
    const folder = new FolderInMemory();
    const outcomes = await tenFiles(folder, (writes) => {
      folder.trouble = writes === 4 || writes === 5 ? trouble : null;
    });
    const refused = outcomes.filter((one) => one.state === 'refused');
    expect(refused.length).toBeGreaterThanOrEqual(1);
    expect(refused.length).toBeLessThanOrEqual(3); // a write that had begun meets the trouble too
    for (const one of refused) expect(one.code).toBe(code);
    expect(outcomes.filter(({ state }) => state === 'done').length).toBe(10 - refused.length);
    expect(folder.files.size).toBe(10 - refused.length);
    expect(wholeOnly(folder)).toBe(true);
    expect(folder.open).toBe(0);
  });

test('a batch that is cancelled leaves what is written, and nothing half', async () => {
  const folder = new FolderInMemory();
  const abort = new AbortController();
  const outcomes = await tenFiles(folder, (writes) => writes === 4 && abort.abort(), abort.signal);
  const done = outcomes.filter(({ state }) => state === 'done');
  expect(done.length).toBeGreaterThanOrEqual(2);
  expect(done.length).toBeLessThanOrEqual(4);
  expect(outcomes.filter(({ state }) => state === 'cancelled').length).toBe(10 - done.length);
  expect(folder.files.size).toBe(done.length);
  expect(wholeOnly(folder)).toBe(true);
  expect(folder.open).toBe(0);
});
