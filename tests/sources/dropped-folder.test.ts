import { expect, test } from 'vitest';
import { droppedFolder } from '../../src/sources/dropped-files.ts';

const item = (isDirectory: boolean, handle: unknown) => ({
  kind: 'file',
  webkitGetAsEntry: () => ({ isDirectory }),
  getAsFileSystemHandle: async () => handle,
});
const transfer = (...items: unknown[]) => ({ items }) as unknown as DataTransfer;

test('droppedFolder(transfer) is a folder that was dropped by itself, and nothing else', async () => {
  const folder = { kind: 'directory', name: 'tethered' };
  expect(await droppedFolder(transfer(item(true, folder)))).toBe(folder);
  expect(await droppedFolder(transfer(item(true, null)))).toBeNull();
  expect(droppedFolder(transfer(item(false, { kind: 'file' })))).toBeNull();
  expect(droppedFolder(transfer(item(true, folder), item(true, folder)))).toBeNull();
  expect(
    droppedFolder(transfer({ kind: 'file', webkitGetAsEntry: () => ({ isDirectory: true }) })),
  ).toBeNull();
  expect(droppedFolder(null)).toBeNull();
});
