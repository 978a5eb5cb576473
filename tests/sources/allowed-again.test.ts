import { expect, test } from 'vitest';
import { allowedAgain } from '../../src/sources/allowed-again.ts';
import { GrowingFolder } from './followed-folder.ts';

test('allowedAgain(folder) asks the browser to read, and is refused where there is none to ask', async () => {
  const asked: unknown[] = [];
  const folder = (answer: string) =>
    Object.assign(new GrowingFolder(), {
      requestPermission: async (wish: unknown) => {
        asked.push(wish);
        return answer;
      },
    });
  expect(await allowedAgain(folder('granted'))).toBe(true);
  expect(await allowedAgain(folder('denied'))).toBe(false);
  expect(await allowedAgain(new GrowingFolder())).toBe(false);
  expect(asked).toEqual([{ mode: 'read' }, { mode: 'read' }]);
});
