import type { Remote } from 'comlink';
import { afterEach, expect, test, vi } from 'vitest';
import { EngineError } from '../../src/engine/engine-error.ts';
import type { FrameReport, ReadOptions } from '../../src/engine/read-frame.ts';
import { UNKNOWN_SETUP } from '../../src/engine/setup.ts';
import type { NamedBlob, ReportProgress } from '../../workers/engine-api.ts';
import { EngineClient } from '../../workers/engine-client.ts';
import { type FakeWorker, fakeWorker, openPromise } from './fake-worker.ts';

const OPTIONS: ReadOptions = {
  setup: UNKNOWN_SETUP,
  tolerance: {
    name: 'any',
    source: 'common practice, no published source',
    measure: 'range',
    limit: 0.3,
    tintDeltaUv: 0.004,
    castDeltaUv: 0.004,
  },
};

type Read = (
  files: NamedBlob[],
  options: ReadOptions,
  report: Remote<ReportProgress> | null,
) => Promise<unknown>;

const workers: FakeWorker[] = [];

/** A client whose workers read as told; the profile is made of the report's own words. */
function clientWith(read: Read): EngineClient {
  return new EngineClient(() => {
    const echo = (report: unknown, options: unknown) => ({ report, options });
    const worker = fakeWorker({ read, rejudge: echo, profile: echo });
    workers.push(worker);
    return worker;
  });
}

afterEach(() => {
  for (const worker of workers.splice(0)) worker.terminate();
});

const file = (name: string): NamedBlob => ({ name, blob: new Blob(['picture']) });
const codeOf = (promise: Promise<unknown>) =>
  promise.then(
    () => 'resolved',
    (error: unknown) => (error instanceof EngineError ? error.code : `not an EngineError: ${error}`),
  );
const never = () => new Promise<never>(() => {});
const moment = () => new Promise((resolve) => setTimeout(resolve, 30));

test('EngineClient.read(files) starts one worker at the first call and keeps it', async () => {
  const client = clientWith(async (files, options) => [await files[0]!.blob.text(), options.tolerance.limit]);
  expect(workers.length).toBe(0);
  expect(await client.read([file('a')], OPTIONS)).toEqual(['picture', 0.3]);
  expect(await client.profile({} as FrameReport, { reference: 'darkest' })).toEqual({
    report: {},
    options: { reference: 'darkest' },
  });
  expect(await client.rejudge({} as FrameReport, OPTIONS)).toEqual({ report: {}, options: OPTIONS });
  expect(workers.length).toBe(1);
});

test('EngineClient.read(files) carries an EngineError of the engine across', async () => {
  const client = clientWith(async () => {
    throw new EngineError('not-an-image', 'text', { bytes: 3 });
  });
  await expect(client.read([file('a')], OPTIONS)).rejects.toMatchObject({
    code: 'not-an-image',
    detail: { bytes: 3 },
  });
});

test('EngineClient.read(files) reports progress while it runs and none of a finished run', async () => {
  const seen: [string, number][] = [];
  const late = openPromise<Remote<ReportProgress>>();
  const client = clientWith(async (_files, _options, report) => {
    await report!('decoding', 0.5);
    late.resolve(report!);
    return 'done';
  });
  await client.read([file('a')], OPTIONS, { onProgress: (phase, fraction) => seen.push([phase, fraction]) });
  await (await late.promise)('fitting', 1);
  expect(seen).toEqual([['decoding', 0.5]]);
});

test('EngineClient rejects everything outstanding when its worker dies, and starts afresh', async () => {
  for (const kind of ['error', 'messageerror']) {
    let calls = 0;
    const client = clientWith(() => (calls++ === 0 ? never() : Promise.resolve('second life')));
    const outstanding = [client.read([file('a')], OPTIONS), client.profile({} as FrameReport)].map(codeOf);
    await moment();
    workers.at(-1)!.die(new Event(kind, { cancelable: true }));
    expect(await Promise.all(outstanding)).toEqual(['worker-lost', 'worker-lost']);
    expect(workers.at(-1)!.terminated).toBe(true);
    expect(await client.read([file('b')], OPTIONS)).toBe('second life');
  }
  expect(workers.length).toBe(4);
});

test('EngineClient.read(files, options, { signal }) ends a busy worker and leaves the others their turn', async () => {
  let calls = 0;
  const client = clientWith(() => (calls++ === 0 ? never() : Promise.resolve('next')));
  const abort = new AbortController();
  const cancelled = codeOf(client.read([file('a')], OPTIONS, { signal: abort.signal }));
  const next = client.read([file('b')], OPTIONS);
  await moment();
  abort.abort();
  expect(await cancelled).toBe('cancelled');
  expect(await next).toBe('next');
  expect(workers.map((worker) => worker.terminated)).toEqual([true, false]);
});

test('EngineClient.readBracket(files, options, run) hands over steps, tells how far it is, and is cancelled', async () => {
  const seen: [string, number][] = [];
  let calls = 0;
  const client = new EngineClient(() => {
    const readBracket = async (
      files: NamedBlob[],
      options: object,
      report: Remote<ReportProgress> | null,
    ) => {
      if (calls++ > 0) return never();
      await report!('decoding', 0.5);
      return { names: files.map(({ name }) => name), options };
    };
    const worker = fakeWorker({ readBracket });
    workers.push(worker);
    return worker;
  });
  const onProgress = (phase: string, fraction: number) => void seen.push([phase, fraction]);
  expect(await client.readBracket([file('a'), file('b')], { stops: [0, -2] }, { onProgress })).toEqual({
    names: ['a', 'b'],
    options: { stops: [0, -2] },
  });
  expect(seen).toEqual([['decoding', 0.5]]);
  const abort = new AbortController();
  const cancelled = codeOf(client.readBracket([file('a')], {}, { signal: abort.signal }));
  await moment();
  abort.abort();
  expect(await cancelled).toBe('cancelled');
  expect(workers.at(-1)!.terminated).toBe(true);
});

test('EngineClient.read(files, options, { signal }) takes a waiting job out without touching the running one', async () => {
  const gate = openPromise<string>();
  let calls = 0;
  const client = clientWith(() => {
    calls++;
    return gate.promise;
  });
  const running = client.read([file('a')], OPTIONS);
  const abort = new AbortController();
  const waiting = codeOf(client.read([file('b')], OPTIONS, { signal: abort.signal }));
  await moment();
  abort.abort();
  expect(await waiting).toBe('cancelled');
  gate.resolve('undisturbed');
  expect(await running).toBe('undisturbed');
  expect([calls, workers.length, workers[0]!.terminated]).toEqual([1, 1, false]);
  expect(await codeOf(client.read([file('c')], OPTIONS, { signal: AbortSignal.abort() }))).toBe('cancelled');
  expect(calls).toBe(1);
});

test('EngineClient.dispose() rejects what is outstanding with worker-lost; an idle one just ends', async () => {
  const client = clientWith(never);
  const outstanding = codeOf(client.read([file('a')], OPTIONS));
  await moment();
  client.dispose();
  expect(await outstanding).toBe('worker-lost');
  expect(workers[0]!.terminated).toBe(true);
  clientWith(never).dispose();
});

test('EngineClient rejects where no worker can be started', async () => {
  const client = new EngineClient(() => {
    throw new Error('workers are off');
  });
  await expect(client.read([file('a')], OPTIONS)).rejects.toThrow('workers are off');
});

test('EngineClient gives up a worker that hangs: its job alone is lost, the next has a fresh one', async () => {
  vi.useFakeTimers({ toFake: ['setInterval', 'clearInterval', 'performance'] });
  try {
    let calls = 0;
    const client = new EngineClient(() => {
      const isFirst = calls++ === 0;
      const read = () => (isFirst ? never() : Promise.resolve('second life'));
      // a worker that computes without an end answers nothing at all
      const worker = fakeWorker({ read, answers: () => (isFirst ? never() : true) });
      workers.push(worker);
      return worker;
    });
    const hanging = client.read([file('hangs.jpg')], OPTIONS).catch((error: unknown) => error);
    const waiting = client.read([file('b')], OPTIONS);
    await vi.advanceTimersByTimeAsync(310_000);
    expect(await hanging).toMatchObject({ code: 'worker-lost' });
    expect(((await hanging) as EngineError).message).toBe(
      'The engine has not answered for 5 minutes while it worked on hangs.jpg, and was ended. The earlier takes are kept, and nothing was written. Try the frame again.',
    );
    expect(await waiting).toBe('second life');
    expect(workers.map((worker) => worker.terminated)).toEqual([true, false]);
  } finally {
    vi.useRealTimers();
  }
});

test('EngineClient does not give up a worker that answers while it waits', async () => {
  vi.useFakeTimers({ toFake: ['setInterval', 'clearInterval', 'performance'] });
  try {
    const gate = openPromise<string>();
    const client = new EngineClient(() => {
      const worker = fakeWorker({ read: () => gate.promise, answers: () => true });
      workers.push(worker);
      return worker;
    });
    const reading = client.read([file('from-afar.jpg')], OPTIONS);
    for (let minute = 0; minute < 12; minute++) {
      await vi.advanceTimersByTimeAsync(60_000);
      await moment(); // the answer crosses over in real time
    }
    gate.resolve('there it is');
    expect(await reading).toBe('there it is');
  } finally {
    vi.useRealTimers();
  }
});
