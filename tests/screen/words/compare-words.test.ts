import { expect, test } from 'vitest';
import { comparedTakes } from '../../../src/plots/compared-takes.ts';
import { sheetRows } from '../../../src/plots/sheet-rows.ts';
import { compareFigures, lightOverWords } from '../../../src/screen/words/compare-words.ts';
import { dashWords, sheetFigure } from '../../../src/screen/words/sheet-words.ts';
import { readingFixture } from '../../plots/reading-fixture.ts';

const plain = (words: string) => words.replaceAll('\u00a0', ' ');
const take = (ev: number, meanLevelEv: number | null = null) => ({
  reading: readingFixture({ ev: (x, y) => -ev * Math.max(Math.abs(x - 0.5), Math.abs(y - 0.5)) * 2 }),
  light: null,
  meanLevelEv,
});

function figures(now: ReturnType<typeof take>, before: ReturnType<typeof take>) {
  const both = comparedTakes(now, before);
  if (typeof both === 'string') throw new Error(both);
  return Object.fromEntries(
    compareFigures(both.compared, both.light).map(([name, figure]) => [name, plain(figure)]),
  );
}

test('what changed is told with its ±, and what lies within it as no change', () => {
  expect(figures(take(0.3), take(1))).toMatchObject({
    Spread: '0.66 stop less ± 0.03',
    Tint: 'the same within ± 0.0003',
    Cast: 'the same within ± 0.0004',
    'Light, place by place': 'typically differs by 0.16 stop ± 0.01 (rms)',
    'Light in common': 'not known: this take was kept without its level',
  });
  expect(figures(take(1.02), take(1)).Spread).toBe('the same within ± 0.03');
  expect(figures(take(1), take(0.3)).Spread).toBe('0.66 stop more ± 0.03');
});

test('light in common is lost, gained or as much', () => {
  expect(plain(lightOverWords(-1.34))).toBe('1.3 stops lost');
  expect(plain(lightOverWords(0.5))).toBe('0.5 stop gained');
  expect(lightOverWords(0.04)).toBe('as much');
});

test('figures of the table carry their ±, and dashes their reason, once each', () => {
  const rows = sheetRows([take(0.3), take(1)], null);
  expect(plain(sheetFigure(rows[0]!, 'spread'))).toBe('0.28 ± 0.02');
  expect(plain(sheetFigure(rows[0]!, 'tint'))).toBe('0.0020 ± 0.0002');
  expect(sheetFigure(rows[0]!, 'lost')).toBe('–');
  expect(dashWords(rows)).toBe('Light lost is not known: this take was kept without its level.');
  expect(dashWords([])).toBeNull();
  expect(sheetFigure({ ...rows[0]!, lostEv: 0 }, 'lost')).toBe('0.0');
  expect(sheetFigure({ ...rows[0]!, spread: { ...rows[0]!.spread, isLowerBound: true } }, 'spread')).toBe(
    'at least 0.28',
  );
});
