import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { filterSources } from './filter-sources.ts';
import { illuminantSources } from './illuminant-sources.ts';
import { refereedLibraries } from './libraries.ts';
import { lightSources } from './light-sources.ts';
import { locusSources } from './locus-sources.ts';
import { isToldAsStandards, kindOf, offBy, type SourceMark } from './refereed.ts';
import { countsInWords, refereesPage } from './referees-page.ts';
import { srgbAndLabSources } from './srgb-and-lab-sources.ts';
import { whiteSources } from './white-sources.ts';

const sources = [
  ...srgbAndLabSources(),
  ...whiteSources(),
  ...locusSources(),
  ...illuminantSources(),
  ...filterSources(),
  ...lightSources(),
];
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
  console.log(`measured: of ${tables.length - 1} tables and of pages ${countsInWords(sources)}`);
  expect(tables.length).toBeGreaterThan(15);
  // the observer's figures are what others are worked out from; nothing in the tool gives them
  expect(tables.filter((table) => !asked(table))).toEqual(['cie-1931-observer']);
});

test('what is only remembered is never told to be a standard’s', () => {
  const page = refereesPage(sources, libraries);
  expect(page).not.toMatch(/\bper (ISO|IEC|EN|CIE|ANSI|SMPTE)\b/i);
  expect(sources.filter(({ marks }) => marks.includes('remembered')).length).toBeGreaterThan(0);
  expect(sources.filter(isToldAsStandards)).toEqual([]);
});

test.each<[string, SourceMark[], boolean]>([
  ['SMPTE ST 431-1:2006', ['remembered'], true],
  ['centres of ANSI C78.377', ['remembered', 'recomputed'], true],
  ['EN 12464-1', ['recomputed', 'remembered'], true],
  ['ISO 12646:2013', ['seen'], false],
  ['centres of lamps of 2008', ['remembered', 'recomputed'], false],
])('a planted source "%s" (%s) is told as a standard’s from memory: %s', (source, marks, isTold) => {
  expect(isToldAsStandards({ source, marks })).toBe(isTold);
});

test.each<[SourceMark[], string]>([
  [['recomputed', 'seen'], 'published'],
  [['second-hand'], 'published'],
  [['remembered', 'recomputed'], 'remembered'],
  [['recomputed'], 'recomputed'],
  [['own'], 'own'],
])('figures marked %s count as %s', (marks, kind) => {
  expect(kindOf({ marks })).toBe(kind);
});

test('every table stands once in short and once in full, under the heading of its kind', () => {
  const sections = refereesPage(sources, libraries).split(/^## /m);
  const own = sources.filter((source) => kindOf(source) === 'own');
  expect(own.length).toBeGreaterThan(0);
  const [short, full] = sections.filter((section) => section.startsWith('Figures of our own'));
  expect(short!.match(/^\| (?!Table|---)/gm)).toHaveLength(own.length);
  expect(full!.match(/^### .*/gm)).toEqual(own.map(({ title }) => `### ${title}`));
  expect(sections.flatMap((section) => section.match(/^### /gm) ?? [])).toHaveLength(sources.length);
});
