import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { HangWatch, longestSilenceMs, type Watched } from '../../workers/hang-watch.ts';

const MINUTE = 60_000;
let watch: HangWatch | null = null;

beforeEach(() => void vi.useFakeTimers());
afterEach(() => {
  watch?.stop();
  vi.useRealTimers();
});

/** Watches work that may be silent for five minutes; returns for how long it had been when it was given up. */
function watched(ask: Watched['ask']): number[] {
  const given: number[] = [];
  watch = new HangWatch({ longestSilenceMs: 5 * MINUTE, ask, hung: (ms) => given.push(ms) });
  return given;
}

const never = () => new Promise<never>(() => {});

test('HangWatch gives up a worker that neither answers nor gets further, once, and after its time', async () => {
  const given = watched(never);
  await vi.advanceTimersByTimeAsync(4.9 * MINUTE);
  expect(given).toEqual([]);
  await vi.advanceTimersByTimeAsync(20 * MINUTE);
  expect(given.length).toBe(1);
  expect(given[0]! / MINUTE).toBeCloseTo(5, 1);
});

test('HangWatch lets a worker be that computes for as long and tells that it gets further', async () => {
  const given = watched(never);
  for (let minute = 0; minute < 60; minute += 4) {
    await vi.advanceTimersByTimeAsync(4 * MINUTE);
    watch!.gotFurther();
  }
  expect(given).toEqual([]);
});

test('HangWatch lets a worker be that waits for a file and answers, though not for ever', async () => {
  const given = watched(() => Promise.reject(new Error('an error is an answer too')));
  await vi.advanceTimersByTimeAsync(45 * MINUTE);
  expect(given).toEqual([]);
  await vi.advanceTimersByTimeAsync(10 * MINUTE);
  expect(given.length).toBe(1);
});

test('HangWatch asks again only when it was answered', async () => {
  let asked = 0;
  watched(() => {
    asked++;
    return never();
  });
  await vi.advanceTimersByTimeAsync(2 * MINUTE);
  expect(asked).toBe(1);
});

test('HangWatch counts no sleep of the machine, and of a page that is held back no more than it looks', async () => {
  const given = watched(never);
  for (let look = 0; look < 60; look++) {
    vi.setSystemTime(Date.now() + 30 * MINUTE);
    vi.spyOn(performance, 'now').mockReturnValue(look * 30 * MINUTE);
    await vi.advanceTimersByTimeAsync(2000); // one look after half an hour
  }
  vi.restoreAllMocks();
  expect(given).toEqual([]);
});

test('HangWatch that was stopped gives nothing up', async () => {
  const given = watched(never);
  watch!.stop();
  await vi.advanceTimersByTimeAsync(60 * MINUTE);
  expect(given).toEqual([]);
});

test('longestSilenceMs(bytes) grows with the file', () => {
  expect(longestSilenceMs(0)).toBe(5 * MINUTE);
  expect(longestSilenceMs(100 * 2 ** 20)).toBe(10 * MINUTE);
});
