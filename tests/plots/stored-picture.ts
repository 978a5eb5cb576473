import { existsSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { expect } from 'vitest';

/** Set to 1, it takes what is drawn now for right: EVENFIELD_RENEW_PICTURES=1 npx vitest run tests/plots */
const RENEW = 'EVENFIELD_RENEW_PICTURES';

/**
 * Holds a drawing against the stored one. On a mismatch the new drawing is left beside it as `…-changed.svg`, to be
 * looked at and, where it is right, stored by the variable above. A picture not yet stored is a mismatch too.
 */
export function expectStoredPicture(name: string, svg: string): void {
  const stored = new URL(`./pictures/${name}.svg`, import.meta.url);
  const changed = new URL(`./pictures/${name}-changed.svg`, import.meta.url);
  if (process.env[RENEW] === '1') writeFileSync(stored, svg);
  const before = existsSync(stored) ? readFileSync(stored, 'utf8') : null;
  if (before === svg) {
    rmSync(changed, { force: true });
    return;
  }
  writeFileSync(changed, svg);
  const found =
    before === null
      ? `${name}.svg is not stored yet`
      : `${name}.svg is no longer what is drawn, from line ${firstDifferentLine(before, svg)} on`;
  expect.fail(`${found}: look at ${name}-changed.svg, and where it is right, run once with ${RENEW}=1`);
}

function firstDifferentLine(before: string, now: string): number {
  const [old, fresh] = [before.split('\n'), now.split('\n')];
  return 1 + fresh.findIndex((line, i) => line !== old[i]);
}
