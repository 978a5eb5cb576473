import { expect, test } from 'vitest';
import { EngineError } from '../../src/engine/engine-error.ts';
import type { CameraResponse } from '../../src/engine/response/camera-response.ts';
import { BenchBracket, type BracketProgress } from '../../src/screen/bench-bracket.ts';
import type { ReadFailure } from '../../src/sources/read-failure.ts';
import type { EngineClient } from '../../workers/engine-client.ts';
import { responseOf } from '../engine/response/response-of.ts';
import { toneCurve } from '../synthetic/tone-curve.ts';

const files = ['a.jpg', 'b.jpg', 'c.jpg'].map((name) => new File([name], name));

function bracket(readBracket: EngineClient['readBracket']) {
  const progress: BracketProgress[] = [];
  const failures: ReadFailure[] = [];
  const counts = { started: 0, disposed: 0 };
  const start = () => {
    counts.started++;
    return { readBracket, dispose: () => void counts.disposed++ };
  };
  const told = {
    progress: (one: BracketProgress) => progress.push(one),
    failure: (one: ReadFailure) => failures.push(one),
  };
  return { bench: new BenchBracket(start, told), progress, failures, counts };
}

test('BenchBracket.read(sources, options) hands frames and steps over, and ends its worker after each', async () => {
  const response = responseOf(toneCurve(1.2));
  const asked: unknown[] = [];
  const { bench, progress, counts } = bracket(async (frames, options, run) => {
    asked.push(
      frames.map(({ name }) => name),
      options,
    );
    run?.onProgress?.('decoding', 0.5);
    return response;
  });
  expect(await bench.read(files, { stops: [0, -1, -2] })).toBe(response);
  expect(asked).toEqual([['a.jpg', 'b.jpg', 'c.jpg'], { stops: [0, -1, -2] }]);
  expect(progress).toEqual([{ phase: 'decoding', fraction: 0.5 }]);
  expect(counts).toEqual({ started: 1, disposed: 1 });
});

test('BenchBracket.read(sources) tells a failure once, with code and message', async () => {
  const { bench, failures, counts } = bracket(async () => {
    throw new EngineError('bad-bracket', 'too few', { fileName: 'b.jpg' });
  });
  const expected = { code: 'bad-bracket', message: 'too few', fileName: 'b.jpg' };
  await expect(bench.read(files)).rejects.toMatchObject(expected);
  expect(failures).toMatchObject([expected]);
  expect(counts.disposed).toBe(1);
});

test('BenchBracket.read(sources, options) refuses a wish that is not understood, and starts nothing', async () => {
  const { bench, counts } = bracket(async () => ({}) as CameraResponse);
  await expect(bench.read([])).rejects.toThrow(RangeError);
  await expect(bench.read(files, { steps: [1] } as object)).rejects.toThrow(/"steps"/);
  await expect(bench.read(files, { stops: '0 1 2' } as object)).rejects.toThrow(/list of numbers/);
  expect(counts.started).toBe(0);
});

test('BenchBracket.cancel() stops what is under way', async () => {
  const { bench } = bracket(
    (_files, _options, run) =>
      new Promise((_, reject) => {
        run!.signal!.addEventListener('abort', () => reject(new EngineError('cancelled', 'stopped')));
      }),
  );
  const under = bench.read(files);
  await new Promise((resolve) => setTimeout(resolve, 5));
  bench.cancel();
  await expect(under).rejects.toMatchObject({ code: 'cancelled' });
});
