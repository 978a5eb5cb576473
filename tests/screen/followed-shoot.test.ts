import { expect, test } from 'vitest';
import type { Verdict } from '../../src/engine/reading.ts';
import { FollowedShoot } from '../../src/screen/followed-shoot.ts';
import type { VerdictSound } from '../../src/screen/verdict-sound.ts';
import type { FolderFollower } from '../../src/sources/folder-follower.ts';
import type { FolderWishes, FollowedFolder } from '../../src/sources/watched-folder.ts';
import { GrowingFolder } from '../sources/followed-folder.ts';

/** A shoot whose folder is in the test's hands. */
function shoot(canRead: (name: string) => boolean = () => true) {
  const asked: string[] = [];
  const wishes: FolderWishes[] = [];
  const stopped: string[] = [];
  const heard: string[] = [];
  const memory = {
    held: null as FollowedFolder | null,
    remember: async (folder: FollowedFolder) => {
      memory.held = folder;
    },
    recall: async () => memory.held,
  };
  const shoot = new FollowedShoot(
    async ({ name }, as) => {
      asked.push(`${name} ${as}`);
      if (!canRead(name)) throw new Error('no picture');
      return { verdict: { even: 'yes', neutral: 'yes', exposed: 'yes' } } as const;
    },
    memory,
    (folder, its) => {
      wishes.push(its);
      return { folder, stop: () => stopped.push(folder.name) } as unknown as FolderFollower;
    },
    {
      ready: async () => {
        heard.push('ready');
      },
      tell: ({ even }: Verdict) => {
        heard.push(even);
      },
    } as VerdictSound,
  );
  const comes = (name: string, seconds: number) =>
    wishes.at(-1)!.take(new File([], name, { lastModified: 1000 * seconds }));
  return { shoot, asked, stopped, comes, wishes, memory, heard };
}

test('FollowedShoot reads what comes in as what the next frame counts as, and what is shot right after as unmoved', async () => {
  const { shoot: its, asked, comes } = shoot();
  its.follow(new GrowingFolder());
  await comes('a', 0);
  await comes('b', 3);
  await comes('c', 60);
  its.countNextAs('as-answered');
  await comes('d', 120);
  its.countNextAs('new-setup');
  await comes('e', 121);
  expect(asked).toEqual(['a as-advised', 'b unmoved', 'c as-advised', 'd as-answered', 'e new-setup']);
  expect([its.framesRead, its.framesFailed]).toEqual([5, 0]);
});

test('FollowedShoot goes on past a frame that can’t be read, which tells nothing of when the set was shot', async () => {
  const { shoot: its, asked, comes } = shoot((name) => name !== 'bad');
  its.follow(new GrowingFolder());
  expect(await comes('bad', 0)).toBe(false);
  expect(await comes('good', 1)).toBe(true);
  expect(asked).toEqual(['bad as-advised', 'good as-advised']);
  expect([its.framesRead, its.framesFailed]).toEqual([1, 1]);
});

test('FollowedShoot tells every change, follows one folder at a time and asks for it again', async () => {
  const { shoot: its, stopped, wishes } = shoot();
  let changes = 0;
  its.addEventListener('change', () => changes++);
  const folder = Object.assign(new GrowingFolder(), { requestPermission: async () => 'granted' });
  its.follow(folder);
  expect(its.folderName).toBe('tethered');
  wishes[0]!.trouble('not-allowed');
  wishes[0]!.waiting!(3);
  expect([its.trouble, its.waiting]).toEqual(['not-allowed', 3]);
  expect(changes).toBeGreaterThanOrEqual(3);
  await its.followAgain();
  expect(stopped).toEqual(['tethered']);
  expect([its.folderName, its.trouble, its.waiting]).toEqual(['tethered', null, 0]);
  its.stop();
  expect(its.folderName).toBeNull();
});

test('FollowedShoot remembers the folder for the next page, which follows it again once it is allowed', async () => {
  const first = shoot();
  let answer = 'denied';
  const folder = Object.assign(new GrowingFolder(), { requestPermission: async () => answer });
  first.shoot.follow(folder);
  const next = shoot();
  next.memory.held = first.memory.held;
  await next.shoot.recall();
  expect([next.shoot.remembered, next.shoot.folderName]).toEqual([folder, null]);
  await next.shoot.followAgain();
  expect(next.shoot.folderName).toBeNull();
  answer = 'granted';
  await next.shoot.followAgain();
  expect(next.shoot.folderName).toBe('tethered');
});

test('FollowedShoot tells verdicts by sound only where that is wished', async () => {
  const { shoot: its, comes, heard } = shoot((name) => name !== 'bad');
  its.follow(new GrowingFolder());
  await comes('a', 0);
  await its.hear(true);
  await comes('b', 60);
  await comes('bad', 120);
  await its.hear(false);
  await comes('c', 180);
  expect(heard).toEqual(['ready', 'yes']);
});
