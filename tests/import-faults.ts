import { posix } from 'node:path';
import { ALLOWED_IMPORTS } from './allowed-imports.ts';
import { importLines } from './import-lines.ts';

/** Says every import of a file that the table does not allow, in words; empty where all are. */
export function importFaults(path: string, source: string): string[] {
  const key = Object.keys(ALLOWED_IMPORTS)
    .filter((folder) => path.startsWith(folder))
    .sort((a, b) => b.length - a.length)[0];
  if (key === undefined) return [`${path}: no rule covers it`];
  const { values, types = [], packages = [] } = ALLOWED_IMPORTS[key]!;
  const own = key.endsWith('/') && key !== 'src/' ? [key] : [];
  const faults: string[] = [];
  for (const { specifier, typeOnly } of importLines(source, path)) {
    if (specifier.startsWith('.')) {
      const target = posix.join(posix.dirname(path), specifier.replace(/\?.*$/, ''));
      // A folder's own files, not those of folders below it that have rules of their own.
      const owner = Object.keys(ALLOWED_IMPORTS)
        .filter((folder) => target.startsWith(folder))
        .sort((a, b) => b.length - a.length)[0];
      const inside = owner === key && own.some((folder) => target.startsWith(folder));
      const allowed = typeOnly ? [...values, ...types] : values;
      if (inside || isAsset(target) || allowed.some((prefix) => target.startsWith(prefix))) continue;
      faults.push(`${path} may not import ${target}${typeOnly ? ' even as a type' : ''}`);
    } else if (!packages.some((name) => matches(specifier, name)))
      faults.push(`${path} may not import the package ${specifier}`);
  }
  return faults;
}

/** A style sheet or a picture carries no code. */
function isAsset(target: string): boolean {
  return /\.(css|svg|png|jpg)$/.test(target);
}

function matches(specifier: string, name: string): boolean {
  if (name.endsWith(':*')) return specifier.startsWith(name.slice(0, -1));
  return specifier === name || specifier.startsWith(`${name}/`);
}
