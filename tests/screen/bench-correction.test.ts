import { expect, test } from 'vitest';
import { EngineError } from '../../src/engine/engine-error.ts';
import { BenchCorrection, type CorrectProgress } from '../../src/screen/bench-correction.ts';
import type { BenchCorrectOptions } from '../../src/screen/bench-element.ts';
import type { ReadFailure } from '../../src/sources/read-failure.ts';
import type { CorrectedBlob } from '../../workers/engine-api.ts';
import type { EngineClient } from '../../workers/engine-client.ts';
import { latticeOf, profileOf } from '../engine/correct/profile-of.ts';

const profile = profileOf(latticeOf(2, 2, () => [0, 0, 0]));
const frame = new File(['frame'], 'tumbler.jpg');

function correction(correct: EngineClient['correct']) {
  const progress: CorrectProgress[] = [];
  const failures: ReadFailure[] = [];
  let [started, disposed] = [0, 0];
  const start = () => {
    started++;
    return { correct, dispose: () => void disposed++ };
  };
  const told = {
    progress: (one: CorrectProgress) => progress.push(one),
    failure: (one: ReadFailure) => failures.push(one),
  };
  const bench = new BenchCorrection(start, told);
  return { bench, progress, failures, counts: () => ({ started, disposed }) };
}

test('BenchCorrection.correct(source, profile, options) opens source and blank, and tells how far it is', async () => {
  const asked: unknown[] = [];
  const blob = new Blob(['corrected']);
  const { bench, progress, counts } = correction(async (file, _profile, options, run) => {
    asked.push(file.name, await file.blob.text(), options?.format, await options?.blank?.blob.text());
    run?.onProgress?.('correcting', 0.5);
    return { blob } as CorrectedBlob;
  });
  expect(counts().started).toBe(0);
  const corrected = await bench.correct(frame, profile, { format: 'png', blank: new Blob(['blank']) });
  expect(corrected.blob).toBe(blob);
  expect(asked).toEqual(['tumbler.jpg', 'frame', 'png', 'blank']);
  expect(progress).toEqual([{ phase: 'correcting', fraction: 0.5 }]);
  await bench.correct(frame, profile);
  bench.dispose();
  expect(counts()).toEqual({ started: 1, disposed: 1 });
});

test('BenchCorrection.correct(source, profile) tells a failure once, with code, message and file name', async () => {
  const { bench, failures } = correction(() =>
    Promise.reject(new EngineError('wrong-profile', 'Another schema.')),
  );
  await expect(bench.correct(frame, profile)).rejects.toMatchObject({
    code: 'wrong-profile',
    message: 'Another schema.',
    fileName: 'tumbler.jpg',
  });
  expect(failures.length).toBe(1);
});

test('BenchCorrection.correct(source, profile, options) refuses wishes that there are not, and tells no failure', async () => {
  const { bench, failures, counts } = correction(() => Promise.reject(new Error('must not be asked')));
  const wishes: [object, RegExp][] = [
    [{ sharpen: true }, /option "sharpen"/],
    [{ format: 'gif' }, /format is "gif"; expected one of: tiff, png, jpeg/],
    [{ bits: 12 }, /bits is 12/],
    [{ treat: 'nothing' }, /treat is "nothing"/],
    [{ treat: 'background-only' }, /its blank frame is needed/],
  ];
  for (const [options, says] of wishes) {
    const refused = bench.correct(frame, profile, options as BenchCorrectOptions);
    await expect(refused).rejects.toThrow(RangeError);
    await expect(refused).rejects.toThrow(says);
  }
  expect(failures).toEqual([]);
  expect(counts().started).toBe(0);
});
