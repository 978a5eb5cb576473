import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { basename, dirname } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { EMPTY_NAMES, LONGEST_FILE } from './allowed-imports.ts';
import { importFaults } from './import-faults.ts';
import { importLines } from './import-lines.ts';

const ROOT = fileURLToPath(new URL('..', import.meta.url));

/** Every file below some top-level folders, from the repository's root. */
function filesIn(...folders: string[]): string[] {
  return folders
    .filter((folder) => existsSync(ROOT + folder))
    .flatMap((folder) =>
      readdirSync(ROOT + folder, { recursive: true, withFileTypes: true })
        .filter((entry) => entry.isFile())
        .map((entry) => `${entry.parentPath}/${entry.name}`.slice(ROOT.length)),
    )
    .sort();
}

const read = (path: string) => readFileSync(ROOT + path, 'utf8');

const sources = filesIn('src', 'workers').filter((path) => path.endsWith('.ts'));

/** Why a name says nothing, for any part of a path; `null` where every part says something. */
function emptyName(path: string): string | null {
  const parts = path.split('/').map((part) => part.replace(/\..*$/, '').toLowerCase());
  return parts.find((part) => EMPTY_NAMES.includes(part)) ?? null;
}

/** Where the file or folder that a test mirrors would be; a test of a whole folder bears any name in its mirror. */
function mirrored(path: string, exists: (path: string) => boolean): boolean {
  const name = path.slice('tests/'.length).replace(/\.test\.ts$/, '');
  const home = name.startsWith('workers/') || name === 'workers' ? '' : 'src/';
  const file = `${home}${dirname(name)}/${basename(name).split('.')[0]}.ts`;
  return exists(file) || exists(home + name) || (dirname(name) !== '.' && exists(home + dirname(name)));
}

describe('the import rule', () => {
  test('holds for every file of src and workers', () => {
    console.log(`measured: ${sources.length} source files`);
    expect(sources.length).toBeGreaterThan(50);
    expect(sources.flatMap((path) => importFaults(path, read(path)))).toEqual([]);
  });

  test('keeps the synthetic studio clear of the engine’s models', () => {
    const studio = filesIn('tests/synthetic').filter(
      (path) => path.endsWith('.ts') && !path.endsWith('.test.ts'),
    );
    expect(studio.length).toBeGreaterThan(0);
    expect(studio.flatMap((path) => importFaults(path, read(path)))).toEqual([]);
    const everything = filesIn('tests/synthetic').filter((path) => path.endsWith('.ts'));
    const lamps = everything.filter((path) =>
      importLines(read(path), path).some(({ specifier }) => specifier.includes('src/engine/lamps')),
    );
    expect(lamps).toEqual([]);
  });

  const forbidden: [string, string, string][] = [
    ['a stage that reads a later one', 'src/engine/grid/a.ts', `import { b } from '../fits/b.ts';`],
    ['even as a type', 'src/engine/grid/a.ts', `import type { B } from '../fits/b.ts';`],
    ['a type in angle of an expression', 'src/engine/maps/a.ts', `let a: import('../moves/b.ts').B;`],
    ['a re-export', 'src/engine/maps/a.ts', `export { b } from '../moves/b.ts';`],
    ['a re-export of everything', 'src/engine/maps/a.ts', `export * from '../moves/b.ts';`],
    ['a bare import', 'src/engine/maps/a.ts', `import '../moves/b.ts';`],
    ['a dynamic import', 'src/engine/maps/a.ts', `const b = await import('../moves/b.ts');`],
    ['a dynamic import of a template', 'src/engine/maps/a.ts', 'const b = await import(`../moves/b.ts`);'],
    ['a computed import', 'src/engine/maps/a.ts', 'const b = await import(name);'],
    [
      'an import over several lines',
      'src/engine/maps/a.ts',
      `import {\n  b, // from './c.ts'\n}\nfrom\n'../moves/b.ts';`,
    ],
    ['two statements on a line', 'src/engine/maps/a.ts', `import './c.ts';import{b}from"../moves/b.ts"`],
    ['require', 'src/engine/maps/a.ts', `const b = require('../moves/b.ts');`],
    ['import equals', 'src/engine/maps/a.ts', `import b = require('../moves/b.ts');`],
    [
      'a worker’s URL',
      'src/engine/maps/a.ts',
      `new Worker(new URL('../../../workers/b.ts', import.meta.url));`,
    ],
    ['a detour', 'src/engine/maps/a.ts', `import { b } from '../maps/../moves/b.ts';`],
    ['a package in the engine', 'src/engine/maps/a.ts', `import { contours } from 'd3-contour';`],
    ['Node in the engine', 'src/engine/intake/a.ts', `import { inflateSync } from 'node:zlib';`],
    [
      'the order of the stages outside its one file',
      'src/engine/moves/a.ts',
      `import { r } from '../read-frame.ts';`,
    ],
    ['a leaf that reads a stage', 'src/engine/numeric/a.ts', `import type { G } from '../grid/b.ts';`],
    ['the screen in the engine', 'src/engine/maps/a.ts', `import { s } from '../../screen/s.ts';`],
    ['the engine’s code on the screen', 'src/screen/a.ts', `import { r } from '../engine/read-frame.ts';`],
    ['a value between types', 'src/screen/a.ts', `import { type R, r } from '../engine/read-frame.ts';`],
    ['Lit in the plots', 'src/plots/a.ts', `import { svg } from 'lit';`],
    ['a package with an allowed one’s beginning', 'src/screen/a.ts', `import { x } from 'literal';`],
    ['the screen in a worker', 'workers/a.ts', `import { s } from '../src/screen/s.ts';`],
    ['the lamps in the studio', 'tests/synthetic/a.ts', `import { l } from '../../src/engine/lamps/l.ts';`],
    ['a folder without a rule', 'elsewhere/a.ts', ''],
  ];
  for (const [name, path, source] of forbidden)
    test(`finds ${name}`, () => {
      expect(importFaults(path, source)).toHaveLength(1);
    });

  const allowed: [string, string, string][] = [
    ['a stage that reads an earlier one', 'src/engine/maps/a.ts', `import { b } from '../grid/b.ts';`],
    [
      'a stage’s own files',
      'src/engine/maps/a.ts',
      `import { b } from './b.ts'; export * from './deep/c.ts';`,
    ],
    ['an earlier stage’s types', 'src/engine/fits/a.ts', `import type { B } from '../grid/b.ts';`],
    ['types marked one by one', 'src/screen/a.ts', `import { type R } from '../engine/read-frame.ts';`],
    [
      'imports in comments',
      'src/engine/maps/a.ts',
      `// import '../moves/b.ts';\n/* import('../moves/b.ts') */`,
    ],
    [
      'imports in strings',
      'src/engine/maps/a.ts',
      `const a = "import '../moves/b.ts'"; const b = \`import './c'\`;`,
    ],
    ['imports in regular expressions', 'src/engine/maps/a.ts', `const a = /import '..\\/moves/;`],
    ['import.meta', 'src/engine/maps/a.ts', `const here = import.meta.url;`],
    ['the address of a folder', 'src/engine/maps/a.ts', `new URL('../../../samples/', import.meta.url);`],
    ['a package’s parts', 'src/screen/a.ts', `import { property } from 'lit/decorators.js';`],
    ['decorators', 'src/screen/a.ts', `@customElement('a-b') class A { @state() private accessor b = 1; }`],
    ['a style sheet as a string', 'src/screen/a.ts', `import css from './a.css?inline';`],
  ];
  for (const [name, path, source] of allowed)
    test(`lets ${name} pass`, () => {
      expect(importFaults(path, source)).toEqual([]);
    });

  test('does not take a file that does not parse for one without imports', () => {
    expect(() => importLines('import { from ;')).toThrow();
  });
});

describe('the layout', () => {
  test('has no file or folder whose name says nothing', () => {
    const named = filesIn('src', 'workers', 'tests').filter((path) => emptyName(path) !== null);
    expect(named).toEqual([]);
    expect(emptyName('src/engine/utils/a.ts')).toBe('utils');
    expect(emptyName('src/engine/maps/helpers.ts')).toBe('helpers');
    expect(emptyName('src/engine/maps/helpers.test.ts')).toBe('helpers');
    expect(emptyName('src/engine/maps/scoreboard.ts')).toBeNull();
  });

  test(`has no source file over ${LONGEST_FILE} lines`, () => {
    const lengths = sources.map((path) => read(path).trimEnd().split('\n').length).sort((a, b) => a - b);
    console.log(`measured: median ${lengths[lengths.length >> 1]} lines, longest ${lengths.at(-1)}`);
    const long = sources.filter((path) => read(path).trimEnd().split('\n').length > LONGEST_FILE);
    expect(long).toEqual([]);
  });

  test('mirrors a source file or folder with every test', () => {
    // Tests that drive the whole or go through every source, and the studio's own, mirror nothing.
    const apart =
      /^tests\/(browser|bench|fuzz|published|synthetic|engine\/(studios|rounds))\/|^tests\/(import-rule|typographic-marks)\.test\.ts$/;
    const exists = (path: string) => existsSync(ROOT + path);
    const tests = filesIn('tests').filter((path) => path.endsWith('.test.ts') && !apart.test(path));
    expect(tests.length).toBeGreaterThan(10);
    expect(tests.filter((path) => !mirrored(path, exists))).toEqual([]);
    const known = (path: string) =>
      ['src/engine/maps', 'src/engine/maps/a.ts', 'workers/b.ts'].includes(path);
    expect(mirrored('tests/engine/maps/a.test.ts', known)).toBe(true);
    expect(mirrored('tests/engine/maps/a.accuracy.test.ts', known)).toBe(true);
    expect(mirrored('tests/workers/b.test.ts', known)).toBe(true);
    expect(mirrored('tests/engine/map/a.test.ts', known)).toBe(false);
    expect(mirrored('tests/a.test.ts', known)).toBe(false);
  });
});
