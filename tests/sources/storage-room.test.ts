import { expect, test, vi } from 'vitest';
import { bytesLeft, keepForGood } from '../../src/sources/storage-room.ts';

test('bytesLeft(storage) is what the quota leaves, never below 0, and null where nothing is told', async () => {
  const left = (told: { quota?: number; usage?: number }) => bytesLeft({ estimate: async () => told });
  expect(await left({ quota: 1000, usage: 300 })).toBe(700);
  expect(await left({ quota: 1000, usage: 1300 })).toBe(0);
  expect(await left({})).toBeNull();
  expect(await bytesLeft(undefined)).toBeNull();
  expect(await bytesLeft({ estimate: () => Promise.reject(new Error('no')) })).toBeNull();
});

/** A browser whose permission stands so; `null`: it knows none of that name. */
function browser(state: PermissionState | null, userAgentData?: object, isPersisted = false) {
  const persist = vi.fn(async () => true);
  const query = async () => {
    if (state === null) throw new TypeError('unknown name');
    return { state } as PermissionStatus;
  };
  const storage = { estimate: async () => ({}), persisted: async () => isPersisted, persist };
  return { asked: { storage, permissions: { query }, userAgentData }, persist };
}

test('keepForGood() asks where that needs no question to the user, and once only', async () => {
  for (const [it, isAsked, promise] of [
    [browser('prompt'), false, false],
    [browser('prompt', {}), true, true],
    [browser('granted'), true, true],
    [browser(null), true, true],
    [browser('granted', {}, true), false, true],
  ] as const) {
    expect(await keepForGood(it.asked)).toBe(promise);
    expect(it.persist.mock.calls.length).toBe(isAsked ? 1 : 0);
  }
  expect(await keepForGood({ storage: undefined, permissions: undefined })).toBe(false);
});
