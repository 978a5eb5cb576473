import { expect, test } from 'vitest';
import { FolderFollower } from '../../src/sources/folder-follower.ts';
import { GrowingFolder } from './followed-folder.ts';

/** A clock that the test winds, and an observer that it lets speak. */
function surroundings(observes: 'well' | 'not' | 'fails') {
  const timers: { work: () => void; ms: number }[] = [];
  const observers: { told: () => void; isOn: boolean }[] = [];
  class FileSystemObserver {
    private readonly its: { told: () => void; isOn: boolean };
    constructor(told: () => void) {
      this.its = { told, isOn: false };
      observers.push(this.its);
    }
    async observe() {
      if (observes === 'fails') throw new Error('not this one');
      this.its.isOn = true;
    }
    disconnect() {
      this.its.isOn = false;
    }
  }
  return {
    timers,
    observers,
    around: {
      ...(observes !== 'not' && { FileSystemObserver }),
      setTimeout: (work: () => void, ms: number) => timers.push({ work, ms }),
      clearTimeout: (timer: number) => {
        if (timer > 0) timers[timer - 1]!.work = () => {};
      },
    },
  };
}

const moment = () => new Promise((resolve) => setTimeout(resolve, 0));

const wishes = (taken: string[], folder: GrowingFolder) => ({
  take: async ({ name }: File) => taken.push(name) > 0,
  trouble: () => {},
  now: () => folder.now,
});

test.each(['not', 'fails'] as const)(
  'FolderFollower looks by the clock where the observer does %s',
  async (observes) => {
    const folder = new GrowingFolder();
    const taken: string[] = [];
    const { timers, around } = surroundings(observes);
    const follower = new FolderFollower(folder, wishes(taken, folder), around);
    await moment();
    folder.write('a.jpg', 5);
    for (let look = 0; look < 2; look++) {
      folder.now += 400;
      timers.at(-1)!.work();
      await moment();
    }
    expect(taken).toEqual(['a.jpg']);
    expect(new Set(timers.map(({ ms }) => ms))).toEqual(new Set([250]));
    follower.stop();
  },
);

test('FolderFollower looks at once when told of a change, seldom else, and often while something is written', async () => {
  const folder = new GrowingFolder();
  const taken: string[] = [];
  const { timers, observers, around } = surroundings('well');
  const follower = new FolderFollower(folder, wishes(taken, folder), around);
  await moment();
  timers.at(-1)!.work();
  await moment();
  expect(timers.at(-1)!.ms).toBe(2000);
  folder.write('a.jpg', 5);
  observers[0]!.told();
  await moment();
  expect(timers.at(-1)!.ms).toBe(250);
  folder.now += 400;
  timers.at(-1)!.work();
  await moment();
  expect(taken).toEqual(['a.jpg']);
  follower.stop();
  expect(observers[0]!.isOn).toBe(false);
  folder.write('b.jpg', 5);
  observers[0]!.told();
  folder.now += 400;
  await moment();
  expect(taken).toEqual(['a.jpg']);
});
