import { expect, test } from 'vitest';
import { peelSoftEdge } from '../../../src/engine/region/peel-soft-edge.ts';

const columns = 30;
const rows = 20;
const full = { columns, rows, cells: new Uint8Array(columns * rows).fill(1) };
/** Marks all but the left `dark` columns. */
const lit = (dark: number) => ({ ...full, cells: full.cells.map((_, i) => (i % columns < dark ? 0 : 1)) });
const levels = (level: (column: number) => number) =>
  Float64Array.from({ length: columns * rows }, (_, i) => level(i % columns));

test('peelSoftEdge(mask, levels, leastStops) takes off the cells that an edge blurs into, not a slope', () => {
  const soft = [-0.9, -0.4, -0.1];
  const sloping = levels((column) => -0.15 * column + (soft[column - 4] ?? 0));
  expect(peelSoftEdge(lit(4), sloping, 0.02)).toEqual(lit(7));
});

test('peelSoftEdge(mask, levels, leastStops) takes nothing off where the light goes on as it slopes or bends', () => {
  const rising = levels((column) => 0.2 * column);
  const bending = levels((column) => -0.012 * (column - 15) ** 2);
  expect(peelSoftEdge(lit(4), rising, 0.02)).toEqual(lit(4));
  expect(peelSoftEdge(lit(4), bending, 0.02)).toEqual(lit(4));
  expect(peelSoftEdge(full, bending, 0.02)).toEqual(full);
});

test('peelSoftEdge(mask, levels, leastStops) takes the wedge of an edge off at the frame’s border', () => {
  const wedge = levels((column) => (column === 0 ? -0.2 : 0));
  const faint = levels((column) => (column === 0 ? -0.05 : 0));
  expect(peelSoftEdge(full, wedge, 0.02)).toEqual(lit(1));
  expect(peelSoftEdge(full, faint, 0.02)).toEqual(full);
});
