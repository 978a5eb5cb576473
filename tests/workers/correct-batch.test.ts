import { afterEach, expect, test } from 'vitest';
import { EngineError } from '../../src/engine/engine-error.ts';
import { type BatchProgress, type BatchWishes, correctBatch } from '../../workers/correct-batch.ts';
import type { CorrectedBlob, NamedBlob } from '../../workers/engine-api.ts';
import { EngineClient } from '../../workers/engine-client.ts';
import { lostByHanging } from '../../workers/engine-lost.ts';
import { latticeOf, profileOf } from '../engine/correct/profile-of.ts';
import { type FakeWorker, fakeWorker, openPromise } from './fake-worker.ts';

const workers: FakeWorker[] = [];
afterEach(() => {
  for (const worker of workers.splice(0)) worker.terminate();
});

const client = (correct: (file: NamedBlob) => Promise<unknown>) =>
  new EngineClient(() => {
    const worker = fakeWorker({ correct });
    workers.push(worker);
    return worker;
  });

const profile = profileOf(latticeOf(2, 2, () => [0.5, 0.5, 0.5]));
const named = (...names: string[]): NamedBlob[] => names.map((name) => ({ name, blob: new Blob([name]) }));
const corrected = (name: string): CorrectedBlob =>
  ({
    blob: new Blob([name]),
    extension: 'tif',
    clippedPixels: 3,
    flags: [],
    background: null,
  }) as unknown as CorrectedBlob;

function batch(files: readonly NamedBlob[], wishes: Partial<BatchWishes> & Pick<BatchWishes, 'clients'>) {
  const write = async ({ name }: NamedBlob) => `${name} as written`;
  return correctBatch(files, { profile, options: {}, write, ...wishes });
}

test('correctBatch(files) works all off on two clients and tells each file and the whole', async () => {
  const news: BatchProgress[] = [];
  const busy = new Set<string>();
  let most = 0;
  const two = openPromise<void>();
  const one = () =>
    client(async ({ name }) => {
      busy.add(name);
      most = Math.max(most, busy.size);
      if (busy.size === 2) two.resolve();
      await two.promise;
      busy.delete(name);
      return corrected(name);
    });
  const files = named('a', 'b', 'c', 'd', 'e');
  const outcomes = await batch(files, { clients: [one(), one()], onProgress: (one) => news.push(one) });
  expect(outcomes.map((outcome) => outcome.state === 'done' && outcome.writtenAs)).toEqual(
    files.map(({ name }) => `${name} as written`),
  );
  expect(most).toBe(2);
  expect(
    news
      .filter(({ phase }) => phase === 'over')
      .map(({ file }) => file)
      .sort(),
  ).toEqual([0, 1, 2, 3, 4]);
  const whole = news.map((one) => one.whole);
  expect(whole).toEqual(whole.toSorted((a, b) => a - b));
  expect(whole.at(-1)).toBeCloseTo(1, 12);
});

test('correctBatch(files) goes on past a bad file, a dead worker and a folder that can’t be written to', async () => {
  const dying = client(({ name }) => {
    if (name === 'bad') return Promise.reject(new EngineError('not-an-image', 'It holds text.'));
    if (name !== 'deadly') return Promise.resolve(corrected(name));
    workers.at(-1)!.die(new Event('error'));
    return new Promise(() => {});
  });
  const write = async ({ name }: NamedBlob) => {
    if (name === 'unwelcome') throw Object.assign(new Error('The folder is gone.'), { code: 'cannot-write' });
    return name;
  };
  const outcomes = await batch(named('a', 'bad', 'b', 'deadly', 'c', 'unwelcome', 'd'), {
    clients: [dying],
    write,
  });
  expect(outcomes.map((one) => (one.state === 'refused' ? one.code : one.state))).toEqual([
    'done',
    'not-an-image',
    'done',
    'worker-lost',
    'done',
    'cannot-write',
    'done',
  ]);
  expect(outcomes[1]).toMatchObject({ name: 'bad', message: 'It holds text.' });
  expect(outcomes[0]).toMatchObject({ clippedPixels: 3 });
});

test('correctBatch(files) does not try a file again that its engine came to no end with', async () => {
  let tries = 0;
  const hanging = {
    correct: async () => {
      tries++;
      throw lostByHanging(300_000, 'a');
    },
  };
  const [outcome] = await batch(named('a'), { clients: [hanging] });
  expect(outcome).toMatchObject({ state: 'refused', code: 'worker-lost', isHanging: true });
  expect(tries).toBe(1);
});

test('correctBatch(files) tries a file whose worker died once more, alone', async () => {
  const busy = new Set<string>();
  const beside: string[][] = [];
  // by promises rather than by time: the second file is surely at work while the first one's worker dies
  const other = openPromise<void>();
  const death = openPromise<void>();
  const one = () =>
    client(async ({ name }) => {
      busy.add(name);
      if (name !== 'large') {
        other.resolve();
        await death.promise;
        busy.delete(name);
        return corrected(name);
      }
      await other.promise;
      busy.delete(name);
      beside.push([...busy]);
      if (beside.length === 2) return corrected(name);
      dead!.die(new Event('error'));
      death.resolve();
      return new Promise(() => {});
    });
  const clients = [one(), one()];
  const news: BatchProgress[] = [];
  const outcome = batch(named('large', 'b', 'c', 'd', 'e', 'f', 'g', 'h'), {
    clients,
    onProgress: (one) => news.push(one),
  });
  const dead = workers.at(-2); // the first client's, which the first file went to
  expect((await outcome).map(({ state }) => state)).toEqual(Array(8).fill('done'));
  expect(beside.length).toBe(2);
  expect(beside[0]).toEqual(['b']);
  expect(beside[1]).toEqual([]);
  const whole = news.map((one) => one.whole);
  expect(whole).toEqual(whole.toSorted((a, b) => a - b));
});

test('correctBatch(files) leaves off at a signal, in the middle of a file too', async () => {
  const abort = new AbortController();
  const begun = openPromise<void>();
  const slow = client(({ name }) => {
    if (name === 'a') return Promise.resolve(corrected(name));
    begun.resolve();
    return new Promise(() => {});
  });
  const outcomes = batch(named('a', 'b', 'c'), { clients: [slow], signal: abort.signal });
  await begun.promise;
  abort.abort();
  expect((await outcomes).map(({ state }) => state)).toEqual(['done', 'cancelled', 'cancelled']);
});

test('correctBatch(files) holds no more than one frame a client until it is written', async () => {
  let held = 0;
  let most = 0;
  const one = () => client(async ({ name }) => corrected(name));
  const write = async ({ name }: NamedBlob) => {
    most = Math.max(most, ++held);
    await new Promise((resolve) => setTimeout(resolve, 3));
    held--;
    return name;
  };
  await batch(named(...Array.from({ length: 40 }, (_, i) => `${i}`)), { clients: [one(), one()], write });
  expect(most).toBe(2);
});
