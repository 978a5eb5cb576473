import { expect, test } from 'vitest';
import { type FolderTrouble, STILL_MS, WatchedFolder } from '../../src/sources/watched-folder.ts';
import { GrowingFolder } from './followed-folder.ts';

/** A watched folder whose looks and clock are in the test's hands. */
function watched(folder: GrowingFolder, canRead: (file: File) => boolean = () => true) {
  const taken: string[] = [];
  const troubles: (FolderTrouble | null)[] = [];
  const watch = new WatchedFolder(folder, {
    take: async (file) => {
      taken.push(`${file.name} ${file.size}`);
      return canRead(file);
    },
    trouble: (trouble) => troubles.push(trouble),
    now: () => folder.now,
  });
  const after = async (ms: number) => {
    folder.now += ms;
    await watch.look();
    await watch.settled();
  };
  return { watch, taken, troubles, after };
}

test('WatchedFolder leaves what was there before and hands out each further frame once it is complete', async () => {
  const folder = new GrowingFolder();
  folder.write('old.jpg', 10);
  const { taken, after } = watched(folder);
  await after(0);
  await after(STILL_MS);
  expect(taken).toEqual([]);
  folder.write('new.jpg', 0); // created, not yet written
  await after(STILL_MS);
  await after(STILL_MS);
  expect(taken).toEqual([]);
  for (const size of [4, 8, 12]) {
    folder.write('new.jpg', size);
    await after(STILL_MS - 50);
  }
  expect(taken).toEqual([]);
  await after(STILL_MS);
  expect(taken).toEqual(['new.jpg 12']);
  await after(10 * STILL_MS);
  expect(taken).toEqual(['new.jpg 12']);
});

test('WatchedFolder lets passing and hidden files, notes and folders be', async () => {
  const folder = new GrowingFolder();
  const { taken, after } = watched(folder);
  await after(0);
  for (const name of ['a.jpg.crswap', '.b.jpg', '~c.jpg', 'd.tmp', 'e.jpg.part', 'notes.txt', 'f.xmp'])
    folder.write(name, 9);
  await after(STILL_MS);
  await after(STILL_MS);
  expect(taken).toEqual([]);
});

test('WatchedFolder hands out a burst of 50 frames one by one, oldest first, and loses none', async () => {
  const folder = new GrowingFolder();
  const { taken, after } = watched(folder);
  await after(0);
  for (let i = 50; i >= 1; i--) folder.write(`frame-${i}.jpg`, i); // all in one moment: names tell the order
  await after(10);
  await after(STILL_MS);
  expect(taken).toEqual(Array.from({ length: 50 }, (_, i) => `frame-${i + 1}.jpg ${i + 1}`));
});

test('WatchedFolder hands out a frame that a look has missed before later ones that wait already', async () => {
  const folder = new GrowingFolder();
  let letGo = () => {};
  const held = new Promise<void>((resolve) => {
    letGo = resolve;
  });
  const taken: string[] = [];
  const watch = new WatchedFolder(folder, {
    take: async ({ name }) => {
      taken.push(name);
      await held;
      return true;
    },
    trouble: () => {},
    now: () => folder.now,
  });
  const after = async (ms: number) => {
    folder.now += ms;
    await watch.look();
  };
  await after(0);
  for (const name of ['1.jpg', '3.jpg', '4.jpg']) folder.write(name, 5);
  await after(1);
  await after(STILL_MS);
  folder.write('2.jpg', 5, 0); // of the same moment as the others
  await after(1);
  await after(STILL_MS);
  letGo();
  await watch.settled();
  expect(taken).toEqual(['1.jpg', '2.jpg', '3.jpg', '4.jpg']);
});

test('WatchedFolder tries a frame again that could not be read, but only once it has changed', async () => {
  const folder = new GrowingFolder();
  const { taken, after } = watched(folder, ({ size }) => size >= 20);
  await after(0);
  folder.write('slow.dng', 5);
  await after(1);
  await after(STILL_MS); // a writer that pauses
  await after(5 * STILL_MS);
  expect(taken).toEqual(['slow.dng 5']);
  folder.write('slow.dng', 20);
  await after(1);
  await after(STILL_MS);
  folder.write('slow.dng', 21); // a rating written into it afterwards is no new frame
  await after(1);
  await after(STILL_MS);
  expect(taken).toEqual(['slow.dng 5', 'slow.dng 20']);
});

test('WatchedFolder loses no frame that another program holds at the moment it is to be opened', async () => {
  const folder = new GrowingFolder();
  const { taken, after } = watched(folder);
  await after(0);
  folder.write('held.jpg', 9);
  await after(1);
  folder.opensLeft = 1; // seen to be complete, and then not to be had
  await after(STILL_MS);
  expect(taken).toEqual([]);
  await after(STILL_MS);
  folder.opensLeft = Number.POSITIVE_INFINITY;
  await after(STILL_MS);
  expect(taken).toEqual(['held.jpg 9']);
});

test('WatchedFolder takes the raw file of a pair alone, whichever comes first', async () => {
  const folder = new GrowingFolder();
  const { taken, after } = watched(folder);
  await after(0);
  folder.write('T_1.DNG', 30);
  folder.write('t_1.jpg', 10);
  await after(1);
  await after(STILL_MS);
  expect(taken).toEqual(['T_1.DNG 30']);
  folder.write('T_2.JPG', 10); // from a camera that is known to write both
  await after(1);
  await after(STILL_MS + 100);
  folder.write('T_2.DNG', 30);
  await after(1);
  await after(STILL_MS);
  expect(taken).toEqual(['T_1.DNG 30', 'T_2.DNG 30']);
  folder.write('T_3.JPG', 10); // and no longer does
  await after(1);
  await after(STILL_MS + 1500);
  expect(taken.at(-1)).toBe('T_3.JPG 10');
});

test('WatchedFolder does not take a raw file whose JPEG it has taken', async () => {
  const folder = new GrowingFolder();
  const { taken, after } = watched(folder);
  await after(0);
  folder.write('1.jpg', 10);
  await after(1);
  await after(STILL_MS);
  folder.write('1.cr3', 30);
  await after(1);
  await after(STILL_MS);
  expect(taken).toEqual(['1.jpg 10']);
});

test('WatchedFolder says that the folder is gone or may not be read, and goes on when it is back', async () => {
  const folder = new GrowingFolder();
  const { taken, troubles, after } = watched(folder);
  await after(0);
  folder.trouble = 'NotFoundError';
  await after(1000);
  await after(1000);
  folder.trouble = 'NotAllowedError';
  await after(1000);
  folder.trouble = null;
  folder.write('a.png', 7);
  await after(1000);
  await after(STILL_MS);
  expect(troubles).toEqual(['gone', 'not-allowed', null]);
  expect(taken).toEqual(['a.png 7']);
});

test('WatchedFolder hands out what was written while the machine slept', async () => {
  const folder = new GrowingFolder();
  const { taken, after } = watched(folder);
  await after(0);
  folder.write('a.jpg', 7);
  folder.now += 8 * 3_600_000;
  folder.write('b.jpg', 7);
  await after(1);
  await after(STILL_MS);
  expect(taken).toEqual(['a.jpg 7', 'b.jpg 7']);
});

test('WatchedFolder that is stopped hands out nothing more', async () => {
  const folder = new GrowingFolder();
  const { watch, taken, after } = watched(folder);
  await after(0);
  folder.write('a.jpg', 7);
  await after(1);
  watch.stop();
  await after(STILL_MS);
  expect(taken).toEqual([]);
});

test('WatchedFolder forgets a file that was taken away: written anew it is a new frame', async () => {
  const folder = new GrowingFolder();
  const { taken, after } = watched(folder);
  folder.write('capture.jpg', 7);
  await after(0);
  folder.remove('capture.jpg');
  await after(500);
  folder.write('capture.jpg', 8);
  await after(1);
  await after(STILL_MS);
  expect(taken).toEqual(['capture.jpg 8']);
});
