import { readdirSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { importLines } from '../import-lines.ts';

const ROOT = new URL('../../', import.meta.url);
const read = (path: string) => readFileSync(new URL(path, ROOT), 'utf8');
const filesIn = (folder: string, end: string) =>
  readdirSync(new URL(folder, ROOT), { recursive: true, encoding: 'utf8' })
    .filter((path) => path.endsWith(end))
    .map((path) => folder + path.replaceAll('\\', '/'));

/** Modules of their own, fetched when first needed: each has its notice in a folder of its own. */
const APART = ['lcms-wasm', 'libraw-wasm'];
/** What lit names for servers alone; nothing of it is built in. */
const FOR_SERVERS = '@lit-labs/ssr-dom-shim';

/** The packages that the sources import for more than types, and those that these bring along. */
function builtIn(): string[] {
  const paths = [...filesIn('src/', '.ts'), ...filesIn('workers/', '.ts')];
  const waiting = paths
    .filter((path) => !path.startsWith('src/package/'))
    .flatMap((path) => importLines(read(path), path))
    .filter(({ specifier, typeOnly }) => !typeOnly && /^[@a-z]/.test(specifier))
    .map(({ specifier }) =>
      specifier
        .split('/')
        .slice(0, specifier.startsWith('@') ? 2 : 1)
        .join('/'),
    )
    .filter((name) => !name.startsWith('node:') && !APART.includes(name));
  const found = new Set<string>();
  for (let name = waiting.pop(); name !== undefined; name = waiting.pop()) {
    if (found.has(name) || name.startsWith('@types/') || name === FOR_SERVERS) continue;
    found.add(name);
    const { dependencies = {} } = JSON.parse(read(`node_modules/${name}/package.json`)) as {
      dependencies?: Record<string, string>;
    };
    waiting.push(...Object.keys(dependencies));
  }
  return [...found].sort();
}

const words = (text: string) => text.split(/\s+/).filter(Boolean).join(' ');

test('every package that is built in is named with its version, and its licence handed on', () => {
  const packages = builtIn();
  expect(packages).toEqual(
    expect.arrayContaining(['lit', 'lit-html', 'comlink', 'd3-contour', 'internmap', 'idb']),
  );
  const notice = words(read('workers/notices/page/NOTICE.txt'));
  for (const name of packages) {
    const { version } = JSON.parse(read(`node_modules/${name}/package.json`)) as { version: string };
    expect(notice).toContain(`${name} ${version}`);
    expect(notice).toContain(words(read(`node_modules/${name}/LICENSE`)));
  }
  for (const name of APART) {
    const { version } = JSON.parse(read(`node_modules/${name}/package.json`)) as { version: string };
    expect(words(filesIn('workers/notices/', 'NOTICE.txt').map(read).join(' '))).toContain(
      `${name} ${version}`,
    );
  }
});
