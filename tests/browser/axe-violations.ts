import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { expect, type Page } from '@playwright/test';
import type { AxeResults } from 'axe-core';

const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

/** What axe finds against WCAG 2.2 AA and best practice in the page as it stands. */
export async function violations(page: Page): Promise<string[]> {
  await page.evaluate(AXE);
  const results: AxeResults = await page.evaluate(() =>
    (window as unknown as { axe: { run(context: unknown, options: unknown): Promise<never> } }).axe.run(
      document,
      {
        runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'],
      },
    ),
  );
  expect(results.passes.length).toBeGreaterThan(10);
  return results.violations.flatMap(({ id, nodes }) =>
    nodes.map(({ html, failureSummary }) => `${id}: ${html} ${failureSummary}`),
  );
}
