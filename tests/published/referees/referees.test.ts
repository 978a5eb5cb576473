import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { colourSources } from './colour-sources.ts';
import { refereedLibraries } from './libraries.ts';
import { lightSources } from './light-sources.ts';
import { offBy } from './refereed.ts';
import { refereesPage } from './referees-page.ts';
import { warmthSources } from './warmth-sources.ts';

const sources = [...colourSources(), ...warmthSources(), ...lightSources()];
const libraries = await refereedLibraries();

test.each(sources)('$title: every figure lies within its tolerance', ({ figures }) => {
  expect(figures.length).toBeGreaterThan(0);
  const missed = figures.filter((figure) => !(offBy(figure) <= figure.tolerance)); // NaN misses too
  expect(missed).toEqual([]);
});

test.each(libraries)('$library: $what', ({ largest, allowed }) => {
  expect(largest).toBeLessThanOrEqual(allowed);
});

test('the page of referees is up to date; npm run referees makes it anew', async () => {
  await expect(refereesPage(sources, libraries)).toMatchFileSnapshot('../REFEREES.md');
});

test('no published table is left out', () => {
  const folder = fileURLToPath(new URL('..', import.meta.url));
  const files = readdirSync(folder, { recursive: true, encoding: 'utf8' });
  const code = files
    .filter((name) => name.endsWith('.ts'))
    .map((name) => readFileSync(folder + name, 'utf8'));
  const asked = (table: string) => code.some((text) => text.includes(`readTable('${table}')`));
  const tables = files.filter((name) => name.endsWith('.csv')).map((name) => name.slice(0, -4));
  const figures = sources.flatMap((source) => source.figures);
  console.log(`measured: ${figures.length} published figures of ${tables.length - 1} tables and of pages`);
  expect(tables.length).toBeGreaterThan(15);
  // the observer's figures are what others are worked out from; nothing in the tool gives them
  expect(tables.filter((table) => !asked(table))).toEqual(['cie-1931-observer']);
});

test('what is only remembered is never told to be a standard’s', () => {
  const page = refereesPage(sources, libraries);
  expect(page).not.toMatch(/\bper (ISO|IEC|EN|CIE|ANSI|SMPTE)\b/i);
  for (const { source, marks } of sources)
    if (marks.length === 1 && marks[0] === 'remembered')
      expect(source).not.toMatch(/\b(ISO|EN|ANSI|SMPTE) \d/);
});
