import { expect, test } from 'vitest';
import { newId } from '../../src/sources/new-id.ts';

test('newId() names by random bytes where no name is offered, each time another', () => {
  const random = { getRandomValues: <T>(into: T) => globalThis.crypto.getRandomValues(into as never) as T };
  const ids = new Set(Array.from({ length: 100 }, () => newId(random)));
  expect(ids.size).toBe(100);
  for (const id of ids) expect(id).toMatch(/^[0-9a-f]{32}$/);
  expect(newId()).toMatch(/^[0-9a-f-]{36}$/);
});
