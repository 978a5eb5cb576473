import { expect, test } from 'vitest';
import { claimForPage } from '../../src/sources/page-claim.ts';

test('claimForPage(name) holds the name for as long as the page is open, and is refused where another has it', async () => {
  const held = new Set<string>();
  const locks = {
    request: async (name: string, _: { ifAvailable: true }, work: (lock: object | null) => Promise<void>) => {
      if (held.has(name)) return work(null);
      held.add(name);
      await work({});
      held.delete(name);
    },
  };
  expect(await claimForPage('a', locks)).toBe(true);
  expect(await claimForPage('a', locks)).toBe(false);
  expect(await claimForPage('b', locks)).toBe(true);
  await new Promise((resolve) => setTimeout(resolve, 0));
  expect([...held]).toEqual(['a', 'b']);
});

test('claimForPage(name) is granted where there are no locks, and passes on what they throw', async () => {
  expect(await claimForPage('a', undefined)).toBe(true);
  const broken = { request: () => Promise.reject(new Error('no')) };
  await expect(claimForPage('a', broken)).rejects.toThrow('no');
});
