import { execFileSync } from 'node:child_process';
import { readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join, resolve } from 'node:path';

/** Another file of the package that a declaration speaks of. */
const SPOKEN_OF = /(from |import\()'(\.[^']*)\.ts'/g;

/**
 * Writes the declarations that the package's entries lead to into `<folder>/types`, and no others: what is left needs
 * no other package, and the engine's no DOM.
 *
 * @param project the folder of the configuration that has the compiler write them all
 */
export function writeDeclarations(project: string, folder: string, entries: readonly string[]): void {
  const compiler = join(
    dirname(createRequire(import.meta.url).resolve('typescript/package.json')),
    'bin/tsc',
  );
  const types = resolve(folder, 'types');
  execFileSync(process.execPath, [compiler, '-p', project, '--outDir', types], { stdio: 'inherit' });
  const reached = new Set<string>();
  const waiting = entries.map((entry) => resolve(types, entry));
  for (let file = waiting.pop(); file !== undefined; file = waiting.pop()) {
    if (reached.has(file)) continue;
    reached.add(file);
    const text = readFileSync(file, 'utf8');
    for (const [, , path] of text.matchAll(SPOKEN_OF)) waiting.push(resolve(dirname(file), `${path}.d.ts`));
    writeFileSync(file, text.replace(SPOKEN_OF, "$1'$2.js'"));
  }
  for (const entry of readdirSync(types, { recursive: true, withFileTypes: true })) {
    const path = join(entry.parentPath, entry.name);
    if (entry.isFile() && !reached.has(path)) rmSync(path);
  }
}
