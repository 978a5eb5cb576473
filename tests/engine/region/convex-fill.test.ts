import { expect, test } from 'vitest';
import { convexFill } from '../../../src/engine/region/convex-fill.ts';

const mask = (...rows: string[]) => ({
  columns: rows[0]!.length,
  rows: rows.length,
  cells: Uint8Array.from(rows.join(''), (mark) => (mark === '#' ? 1 : 0)),
});

test('convexFill(mask) fills dents and holes and nothing outside the hull of the centres', () => {
  const filled = convexFill(mask('#...#', '.....', '.....', '.....', '..#..'));
  expect(filled).toEqual(mask('#####', '.###.', '.###.', '..#..', '..#..'));
});

test('convexFill(mask) leaves a convex area and an empty mask alone', () => {
  const disc = mask('..#..', '.###.', '#####', '.###.', '..#..');
  expect(convexFill(disc)).toEqual(disc);
  const empty = mask('...', '...');
  expect(convexFill(empty)).toEqual(empty);
});
