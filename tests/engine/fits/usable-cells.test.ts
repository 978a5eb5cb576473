import { expect, test } from 'vitest';
import { EngineError } from '../../../src/engine/engine-error.ts';
import { usableCells } from '../../../src/engine/fits/usable-cells.ts';
import { gridOfLight } from './grid-of-light.ts';

function refusal(lost: { highlight?: number; shadow?: number; light?: number }): EngineError {
  const level = lost.shadow ? -11 : -1;
  const grid = gridOfLight(() => [level, level, level], { columns: 18, rows: 12 });
  if (lost.highlight) grid.highlightShare.fill(lost.highlight);
  if (lost.shadow) grid.shadowShare.fill(lost.shadow);
  if (lost.light !== undefined) grid.light.green.fill(lost.light);
  try {
    usableCells(grid);
  } catch (error) {
    if (error instanceof EngineError) return error;
    throw error;
  }
  throw new Error('nothing was refused');
}

test('usableCells(grid) says in a photographer’s words what hides the light and what to do', () => {
  const cases = [
    [refusal({ highlight: 1 }), 'all-clipped', /^100 % of the background is clipped.*Expose.*again\.$/],
    [refusal({ shadow: 1 }), 'no-light', /^100 % of the background is black.*more light.*again\.$/],
    [refusal({ light: Number.NaN }), 'too-small', /^Too little of the picture.*Choose.*\.$/],
  ] as const;
  for (const [error, code, words] of cases) {
    expect(error.code).toBe(code);
    expect(error.message).toMatch(words);
    expect(error.message).not.toMatch(/cell|surface|blocked/);
  }
});
