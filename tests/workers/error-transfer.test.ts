import { releaseProxy, wrap } from 'comlink';
import { expect, test } from 'vitest';
import { EngineError } from '../../src/engine/engine-error.ts';
import { transferEngineErrors } from '../../workers/error-transfer.ts';
import { fakeWorker } from './fake-worker.ts';

const api = {
  refuse: (): number => {
    throw new EngineError('too-small', 'found 3, needed 16', { widthPx: 3, sides: [3, 3] });
  },
  refuseUncloneable: (): number => {
    throw new EngineError('no-light', 'dark', { act: () => {} });
  },
  slip: (): number => {
    throw new RangeError('a slip of ours');
  },
  throwText: (): number => {
    throw 'just text';
  },
  answer: (value: number) => value * 2,
};

async function outcome(call: 'refuse' | 'refuseUncloneable' | 'slip' | 'throwText'): Promise<unknown> {
  const worker = fakeWorker(api);
  const remote = wrap<typeof api>(worker);
  try {
    return await remote[call]().catch((error: unknown) => error);
  } finally {
    remote[releaseProxy]();
    worker.terminate();
  }
}

test('transferEngineErrors() carries code, message and detail across, as an EngineError', async () => {
  const error = (await outcome('refuse')) as EngineError;
  expect(error).toBeInstanceOf(EngineError);
  expect([error.code, error.message, error.detail]).toEqual([
    'too-small',
    'found 3, needed 16',
    { widthPx: 3, sides: [3, 3] },
  ]);
});

test('transferEngineErrors() drops a detail that can not be cloned rather than the error', async () => {
  const error = (await outcome('refuseUncloneable')) as EngineError;
  expect([error.code, error.detail]).toEqual(['no-light', {}]);
});

test('transferEngineErrors() leaves other errors and thrown values as they were', async () => {
  const slip = (await outcome('slip')) as Error;
  expect([slip.name, slip.message, slip instanceof EngineError]).toEqual([
    'RangeError',
    'a slip of ours',
    false,
  ]);
  expect(await outcome('throwText')).toBe('just text');
});

test('transferEngineErrors() may be called again, and results still pass', async () => {
  transferEngineErrors();
  transferEngineErrors();
  expect(((await outcome('refuse')) as EngineError).code).toBe('too-small');
  const worker = fakeWorker(api);
  expect(await wrap<typeof api>(worker).answer(21)).toBe(42);
  worker.terminate();
});
