import { execFileSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/** The package as npm packs what was built, installed in a project of its own that has no other. */
export interface InstalledPackage {
  /** The project's folder. */
  readonly project: string;
  /** The package's own folder in it. */
  readonly folder: string;
  remove(): void;
}

export function installPackage(): InstalledPackage {
  const project = mkdtempSync(join(tmpdir(), 'evenfield-package-'));
  const folder = join(project, 'node_modules', 'evenfield');
  mkdirSync(folder, { recursive: true });
  // what was built for these tests is packed as it is; npm itself would build it anew
  const packed = execFileSync(
    'npm',
    ['pack', '--ignore-scripts', '--silent', '--pack-destination', project],
    {
      encoding: 'utf8',
    },
  );
  execFileSync('tar', ['-xzf', join(project, packed.trim()), '-C', folder, '--strip-components=1']);
  return { project, folder, remove: () => rmSync(project, { recursive: true, force: true }) };
}
