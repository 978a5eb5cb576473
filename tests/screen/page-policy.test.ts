import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { PAGE_POLICY, SERVED_HEADERS } from '../../src/screen/page-policy.ts';

test('the README names the headers as they are sent', () => {
  const readme = readFileSync(new URL('../../README.md', import.meta.url), 'utf8');
  const lines = Object.entries(SERVED_HEADERS).map(([name, value]) => `${name}: ${value}`);
  expect(readme).toContain(`\`\`\`\n${lines.join('\n')}\n\`\`\``);
});

test('neither policy lets text become a script, nor anything come from elsewhere', () => {
  for (const policy of [PAGE_POLICY, SERVED_HEADERS['Content-Security-Policy']!]) {
    expect(policy).not.toMatch(/'unsafe-|\*|https?:|data:/);
    expect(policy).toContain("default-src 'none'");
    expect(policy).toContain("require-trusted-types-for 'script'");
  }
  expect(PAGE_POLICY).not.toContain('wasm');
});
