import { expect, test } from 'vitest';
import { seededRandom } from '../../../src/engine/numeric/seeded-random.ts';
import { largestRectangle } from '../../../src/engine/region/largest-rectangle.ts';

/** Tries every rectangle. */
function largestArea(columns: number, rows: number, cells: Uint8Array): number {
  let largest = 0;
  for (let left = 0; left < columns; left++)
    for (let top = 0; top < rows; top++)
      for (let right = left + 1; right <= columns; right++)
        for (let bottom = top + 1; bottom <= rows; bottom++) {
          let full = true;
          for (let y = top; y < bottom; y++)
            for (let x = left; x < right; x++) if (!cells[y * columns + x]) full = false;
          if (full) largest = Math.max(largest, (right - left) * (bottom - top));
        }
  return largest;
}

test('largestRectangle(mask) is marked all over and as large as any, in 200 random masks', () => {
  const random = seededRandom(4);
  for (let k = 0; k < 200; k++) {
    const columns = 1 + Math.floor(7 * random.uniform());
    const rows = 1 + Math.floor(7 * random.uniform());
    const share = random.uniform();
    const cells = Uint8Array.from({ length: columns * rows }, () => (random.uniform() < share ? 1 : 0));
    const found = largestRectangle({ columns, rows, cells });
    const area = largestArea(columns, rows, cells);
    if (!found) {
      expect(area).toBe(0);
      continue;
    }
    const { left, top, right, bottom } = found;
    expect((right - left) * (bottom - top)).toBe(area);
    for (let y = top; y < bottom; y++)
      for (let x = left; x < right; x++) expect(cells[y * columns + x]).toBe(1);
  }
});

test('largestRectangle(mask) takes the whole of a full mask', () => {
  const cells = new Uint8Array(12).fill(1);
  expect(largestRectangle({ columns: 4, rows: 3, cells })).toEqual({ left: 0, top: 0, right: 4, bottom: 3 });
});
