import { existsSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { expect } from 'vitest';

/**
 * Holds a drawing against the stored one. On a mismatch the new drawing is left beside it as `…-changed.svg`, to be
 * looked at and, where it is right, renamed over the old one. A picture not yet stored is a mismatch too.
 */
export function expectStoredPicture(name: string, svg: string): void {
  const stored = new URL(`./pictures/${name}.svg`, import.meta.url);
  const changed = new URL(`./pictures/${name}-changed.svg`, import.meta.url);
  if (existsSync(stored) && readFileSync(stored, 'utf8') === svg) {
    rmSync(changed, { force: true });
    return;
  }
  writeFileSync(changed, svg);
  expect.fail(`${name}.svg is not what is drawn now; compare it with ${name}-changed.svg`);
}
