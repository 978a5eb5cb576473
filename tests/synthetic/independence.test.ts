import { readdirSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';

const ALLOWED = [/numeric\/seeded-random\.ts$/, /engine\/setup\.ts$/];

/** Engine files that a source text imports and that truth may not rest on. */
function forbiddenImports(text: string): string[] {
  const targets = [...text.matchAll(/(?:from|import)\s*\(?\s*['"]([^'"]+)['"]/g)].map((match) => match[1]!);
  return targets.filter((target) => /src\//.test(target) && !ALLOWED.some((rule) => rule.test(target)));
}

test('nothing that makes frames of known truth rests on the engine that they test', () => {
  const folder = new URL('.', import.meta.url);
  const files = readdirSync(folder, { recursive: true, encoding: 'utf8' }).filter((name) =>
    name.endsWith('.ts'),
  );
  expect(files.length).toBeGreaterThan(15);
  for (const name of files)
    expect(forbiddenImports(readFileSync(new URL(name, folder), 'utf8')), name).toEqual([]);
});

test('the rule itself refuses a bad line and accepts a good one', () => {
  const line = (target: string) => `import { x } ${'from'} '../../src/${target}';`;
  expect(forbiddenImports(line('engine/lamps/predict.ts'))).toHaveLength(1);
  expect(forbiddenImports(line('engine/colour/srgb.ts'))).toHaveLength(1);
  expect(forbiddenImports(line('engine/numeric/seeded-random.ts'))).toHaveLength(0);
});
