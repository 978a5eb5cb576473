import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';

const read = (path: string) => readFileSync(new URL(path, import.meta.url), 'utf8');

test('the page on figures names every figure of a Reading', () => {
  const [source, page] = [read('../../src/engine/reading.ts'), read('../../src/engine/FIGURES.md')];
  const figuresOf = (name: string) =>
    [...new RegExp(`interface ${name} \\{([^}]*)\\n\\}`).exec(source)![1]!.matchAll(/readonly (\w+):/g)]
      .map(([, figure]) => figure!)
      .filter((figure) => !figure.startsWith('plusMinus')); // each goes with the figure that it is of
  const all = ['Falloff', 'Tint', 'Cast', 'Gradient', 'TintGradient'].flatMap(figuresOf);
  expect(all.length).toBeGreaterThan(25);
  expect(all.filter((figure) => !page.includes(`\`${figure}\``))).toEqual([]);
  for (const basis of ['scene-linear', 'response-recovered', 'display-decoded'])
    expect(page).toContain(`\`${basis}\``);
});
