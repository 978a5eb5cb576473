import { expect, test } from 'vitest';
import { cellCentre, placeInCells } from '../../../src/engine/numeric/cell-centre.ts';
import { expectWithin } from '../../expect-within.ts';

const CELLS = { columns: 4, rows: 2, region: { left: 0.2, top: 0.5, right: 0.6, bottom: 0.9 } };

test('cellCentre(cells, cell) lies half a cell inside, row by row from the top left', () => {
  const centres = [0, 3, 4, 7].map((cell) => cellCentre(CELLS, cell));
  const expected = [
    [0.25, 0.6],
    [0.55, 0.6],
    [0.25, 0.8],
    [0.55, 0.8],
  ];
  centres.forEach(({ x, y }, i) => {
    expectWithin(x, expected[i]![0]!, 1e-12);
    expectWithin(y, expected[i]![1]!, 1e-12);
  });
});

test('placeInCells(cells, across, down) runs from the region’s corner to the other', () => {
  expect(placeInCells(CELLS, 0, 0)).toEqual({ x: 0.2, y: 0.5 });
  expectWithin(placeInCells(CELLS, 4, 2).x, 0.6, 1e-12);
  expectWithin(placeInCells(CELLS, 4, 2).y, 0.9, 1e-12);
});
