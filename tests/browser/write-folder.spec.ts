import { build } from 'vite';
import type { FolderWriter as FolderWriterClass } from '../../src/sources/write-folder.ts';
import { expect, test } from './open-bench.ts';

declare const writing: { FolderWriter: typeof FolderWriterClass };

/** The writer alone, as a script: the page's own folder is chosen by hand, which no test can do. */
async function writerScript(): Promise<string> {
  const made = await build({
    configFile: false,
    logLevel: 'error',
    build: {
      write: false,
      minify: false,
      lib: { entry: 'src/sources/write-folder.ts', formats: ['iife'], name: 'writing' },
    },
  });
  const [output] = Array.isArray(made) ? made : [made];
  if (!output || !('output' in output)) throw new Error('nothing was built');
  return output.output[0].code;
}

test('FolderWriter writes into a browser’s own folder, none over another and nothing half-written', async ({
  page,
}) => {
  await page.addInitScript({ content: `${await writerScript()};globalThis.writing = writing;` });
  await page.goto('');
  const outcome = await page.evaluate(async () => {
    const root = await navigator.storage.getDirectory();
    const folder = await root.getDirectoryHandle('tumblers', { create: true });
    const own = await (await folder.getFileHandle('b.tif', { create: true })).createWritable();
    await own.write('someone’s own');
    await own.close();
    await folder.getDirectoryHandle('c.tif', { create: true });
    const writer = new writing.FolderWriter(folder);
    const large = new Blob([new Uint8Array(20_000_000).fill(7)]);
    const names = await Promise.all(
      ['a.tif', 'a.tif', 'b.tif', 'c.tif'].map((name) => writer.write(name, large)),
    );
    // a write that is stopped, and one of what can no longer be read
    const abort = new AbortController();
    const stopped = writer.write('d.tif', large, abort.signal);
    abort.abort();
    const gone = { size: 5, text: () => Promise.reject(new Error('gone')) } as unknown as Blob;
    const codes = await Promise.all(
      [stopped, writer.write('e.tif', gone), writer.write('f/g.tif', large)].map((work) =>
        work.then(
          () => 'written',
          ({ code }) => code,
        ),
      ),
    );
    const held: Record<string, number | string> = {};
    for await (const [name, entry] of (
      folder as unknown as { entries(): AsyncIterable<[string, FileSystemHandle]> }
    ).entries())
      held[name] = entry.kind === 'file' ? (await (entry as FileSystemFileHandle).getFile()).size : 'folder';
    const untouched = await (await (await folder.getFileHandle('b.tif')).getFile()).text();
    await root.removeEntry('tumblers', { recursive: true });
    // a folder that is no longer there
    const lost = await writer.write('h.tif', large).then(
      () => null,
      ({ code, message }) => ({ code, message }),
    );
    return { names, codes, held, untouched, lost };
  });
  expect([...outcome.names].sort()).toEqual(['a-2.tif', 'a.tif', 'b-2.tif', 'c-2.tif']);
  expect(outcome.codes).toEqual(['cancelled', 'cannot-write', 'cannot-write']);
  expect(outcome.held).toEqual({
    ...{
      'a.tif': 20_000_000,
      'a-2.tif': 20_000_000,
      'b.tif': new TextEncoder().encode('someone’s own').length,
    },
    ...{ 'b-2.tif': 20_000_000, 'c.tif': 'folder', 'c-2.tif': 20_000_000 },
  });
  expect(outcome.untouched).toBe('someone’s own');
  expect(outcome.lost?.code).toBe('cannot-write');
  expect(outcome.lost?.message).toContain('no longer where it was');
});
