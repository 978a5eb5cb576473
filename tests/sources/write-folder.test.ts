import { describe, expect, test } from 'vitest';
import { ReadFailure } from '../../src/sources/read-failure.ts';
import { FolderWriter } from '../../src/sources/write-folder.ts';
import { FolderInMemory } from './folder-in-memory.ts';

const blob = (text: string) => new Blob([text]);

async function failureOf(work: Promise<unknown>): Promise<ReadFailure> {
  const error = await work.then(
    () => null,
    (thrown: unknown) => thrown,
  );
  expect(error).toBeInstanceOf(ReadFailure);
  return error as ReadFailure;
}

test('FolderWriter.write(name, data) writes a file and says its name', async () => {
  const folder = new FolderInMemory();
  expect(await new FolderWriter(folder).write('a.corrected.tif', blob('light'))).toBe('a.corrected.tif');
  expect([...folder.files]).toEqual([['a.corrected.tif', 'light']]);
  expect(folder.open).toBe(0);
});

test('FolderWriter.write(name, data) never writes over a file or a folder', async () => {
  const folder = new FolderInMemory();
  folder.files.set('A.corrected.TIF', 'someone’s own');
  folder.files.set('a.corrected-2.tif', 'also');
  folder.folders.add('a.corrected-3.tif');
  expect(await new FolderWriter(folder).write('a.corrected.tif', blob('light'))).toBe('a.corrected-4.tif');
  expect(folder.files.get('A.corrected.TIF')).toBe('someone’s own');
  expect(folder.files.get('a.corrected-2.tif')).toBe('also');
});

test('FolderWriter.write(name, data) gives each of several at once a name of its own', async () => {
  const folder = new FolderInMemory();
  const writer = new FolderWriter(folder);
  const texts = ['one', 'two', 'three', 'four'];
  const names = await Promise.all(texts.map((text) => writer.write('a.tif', blob(text))));
  expect(new Set(names).size).toBe(4);
  expect(names.map((name) => folder.files.get(name))).toEqual(texts);
});

describe('FolderWriter.write(name, data) leaves nothing half-written where', () => {
  for (const at of ['write', 'close'] as const)
    for (const [trouble, code, says] of [
      ['full', 'storage-full', /no room for a\.tif in the folder tumblers: 1 MB were needed/],
      ['revoked', 'cannot-write', /permission to write there was taken back/],
      ['gone', 'cannot-write', /no longer where it was/],
    ] as const)
      test(`the disk is ${trouble} at ${at}, and the next file is written all the same`, async () => {
        const folder = new FolderInMemory();
        const writer = new FolderWriter(folder);
        await writer.write('before.tif', blob('whole'));
        folder.troubleAt = at;
        folder.trouble = trouble;
        const failure = await failureOf(writer.write('a.tif', blob('light')));
        expect([failure.code, failure.fileName]).toEqual([code, 'a.tif']);
        expect(failure.message).toMatch(says);
        expect([...folder.files.keys()]).toEqual(['before.tif']);
        expect(folder.open).toBe(0);
        folder.trouble = null;
        expect(await writer.write('a.tif', blob('light'))).toBe('a.tif');
      });

  test('it is cancelled meanwhile', async () => {
    const folder = new FolderInMemory();
    const abort = new AbortController();
    folder.beforeWrite = () => abort.abort();
    const failure = await failureOf(new FolderWriter(folder).write('a.tif', blob('light'), abort.signal));
    expect(failure.code).toBe('cancelled');
    expect(folder.files.size).toBe(0);
    expect(folder.open).toBe(0);
  });
});

test('FolderWriter.write(name, data) says why where not even a name can be had, and goes on', async () => {
  const folder = new FolderInMemory();
  const writer = new FolderWriter(folder);
  folder.troubleAt = 'name';
  folder.trouble = 'revoked';
  expect((await failureOf(writer.write('a.tif', blob('light')))).code).toBe('cannot-write');
  folder.trouble = null;
  expect((await failureOf(writer.write('..', blob('light')))).message).toContain('(Name is not allowed)');
  expect(await writer.write('b.tif', blob('light'))).toBe('b.tif');
});

test('FolderWriter.write(name, data) leaves a file alone that another program made in between', async () => {
  const folder = new FolderInMemory();
  const plain = folder.getFileHandle.bind(folder);
  folder.getFileHandle = async (name, options) => {
    if (options?.create && name === 'a.tif') folder.files.set(name, 'another program’s');
    return plain(name, options);
  };
  expect(await new FolderWriter(folder).write('a.tif', blob('light'))).toBe('a-2.tif');
  expect(folder.files.get('a.tif')).toBe('another program’s');
});
