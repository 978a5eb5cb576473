import { expect, test } from 'vitest';
import { NamedShelf, NoShelfError } from '../../src/takes/named-shelf.ts';
import { keepingTrouble } from '../../src/takes/shoot-keeper.ts';
import type { TakeShelf } from '../../src/takes/take-shelf.ts';

test('NamedShelf goes by the name it has when it is used, and makes each shelf once', async () => {
  let name: string | null = null;
  const made: string[] = [];
  const asked: string[] = [];
  const shelf = new NamedShelf(
    () => name,
    (each) => {
      made.push(each);
      return {
        shoots: async () => [],
        remove: async (id: string) => {
          asked.push(`${each} ${id}`);
        },
      } as unknown as TakeShelf;
    },
  );
  expect(await shelf.shoots()).toEqual([]);
  await expect(shelf.remove('a')).rejects.toBeInstanceOf(NoShelfError);
  expect(keepingTrouble(await shelf.remove('a').catch((error: unknown) => error))).toBe('no-shelf');
  expect(made).toEqual([]);
  for (name of ['front', 'back', 'front']) await shelf.remove('a');
  expect(made).toEqual(['front', 'back']);
  expect(asked).toEqual(['front a', 'back a', 'front a']);
});
