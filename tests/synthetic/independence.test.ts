import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { posix } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { importLines } from '../import-lines.ts';

const ROOT = fileURLToPath(new URL('../..', import.meta.url));
const ALLOWED = [/numeric\/seeded-random\.ts$/, /engine\/setup\.ts$/];

/** Paths of files, and their text. */
interface Files {
  readonly text: (path: string) => string | null;
}

const ON_DISK: Files = {
  text: (path) => (existsSync(ROOT + path) ? readFileSync(ROOT + path, 'utf8') : null),
};

/** TypeScript files below a folder, from the repository's root. */
function filesIn(folder: string): string[] {
  return readdirSync(ROOT + folder, { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.ts'))
    .map((name) => `${folder}/${name}`);
}

/** Engine files that a source text imports and that truth may not rest on. */
function forbiddenImports(text: string): string[] {
  return importLines(text)
    .map(({ specifier }) => specifier)
    .filter((target) => /src\//.test(target) && !ALLOWED.some((rule) => rule.test(target)));
}

/**
 * Every way from one of the files to a path with that beginning, however many files lie between: by import, as a
 * type, or by re-export.
 */
function waysTo(forbidden: string, from: readonly string[], files: Files = ON_DISK): string[] {
  const seen = new Set(from);
  const ways = from.map((path) => [path]);
  const found: string[] = [];
  for (let way = ways.shift(); way !== undefined; way = ways.shift()) {
    const path = way.at(-1)!;
    const text = files.text(path);
    if (text === null) continue; // an asset, or a file that is made by the build
    for (const { specifier } of importLines(text, path)) {
      if (!specifier.startsWith('.')) continue;
      const next = posix.join(posix.dirname(path), specifier.replace(/\?.*$/, ''));
      if (next.startsWith(forbidden)) found.push([...way, next].join(' → '));
      else if (next.endsWith('.ts') && !seen.has(next)) {
        seen.add(next);
        ways.push([...way, next]);
      }
    }
  }
  return found;
}

test('nothing that makes frames of known truth rests on the engine that they test', () => {
  const files = filesIn('tests/synthetic');
  expect(files.length).toBeGreaterThan(15);
  for (const path of files) expect(forbiddenImports(ON_DISK.text(path)!), path).toEqual([]);
});

test('no way leads from the synthetic studio to the model of lamps, nor back', () => {
  const studio = filesIn('tests/synthetic');
  const model = filesIn('src/engine/lamps');
  expect(model.length).toBeGreaterThan(10);
  expect(waysTo('src/engine/lamps/', studio)).toEqual([]);
  expect(waysTo('tests/', model)).toEqual([]);
  // the whole program, too: nothing that is built may rest on what only tests have
  expect(waysTo('tests/', [...filesIn('src'), ...filesIn('workers')])).toEqual([]);
});

test('the rules themselves refuse a bad line and accept a good one', () => {
  const line = (target: string) => `import { x } ${'from'} '../../src/${target}';`;
  expect(forbiddenImports(line('engine/lamps/predict.ts'))).toHaveLength(1);
  expect(forbiddenImports(line('engine/colour/srgb.ts'))).toHaveLength(1);
  expect(forbiddenImports(line('engine/numeric/seeded-random.ts'))).toHaveLength(0);
  expect(forbiddenImports(`export * from '../../src/engine/lamps/predict.ts';`)).toHaveLength(1);
});

test.each([
  ['an import', `import { l } from '../src/engine/lamps/l.ts';`],
  ['a type', `import type { L } from '../src/engine/lamps/l.ts';`],
  ['a re-export', `export { l } from '../src/engine/lamps/l.ts';`],
  ['a re-export of everything', `export * from '../src/engine/lamps/l.ts';`],
  ['a dynamic import', `const l = await import('../src/engine/lamps/l.ts');`],
  ['another file between', `export * from './c.ts';`],
])('a way that leads round by %s is found, and one that ends in good files is none', (_, line) => {
  const text: Record<string, string> = {
    'tests/synthetic/a.ts': `import { b } from '../b.ts';`,
    'tests/b.ts': line,
    'tests/c.ts': `export { l } from '../src/engine/lamps/l.ts'; export * from './b.ts';`,
  };
  const files: Files = { text: (path) => text[path] ?? null };
  const [way, ...others] = waysTo('src/engine/lamps/', ['tests/synthetic/a.ts'], files);
  expect(way).toMatch(/^tests\/synthetic\/a\.ts → tests\/b\.ts → .*src\/engine\/lamps\/l\.ts$/);
  expect(others).toEqual([]);
  expect(waysTo('src/engine/moves/', ['tests/synthetic/a.ts'], files)).toEqual([]);
});
