import { describe, expect, test } from 'vitest';
import { cellsFromFrame } from '../../../src/engine/grid/cells-from-frame.ts';
import { WELL_ELECTRONS } from '../known-frames.ts';
import { frameOfCodes } from './frame-of-codes.ts';
import { noisyCells } from './noisy-cells.ts';

const MOST_MOVED_EV = 0.01;
/** Cells of 20 pixels, two of whose columns or rows are a tenth. */
const CELL_PX = 20;
const [COLUMNS, ROWS] = [96, 12];
const LEVEL = { bright: 0.8, dark: 0.8 / 2 ** 3 };

const TRANSMISSIONS = [
  0, 0.3, 0.6, 0.8, 0.86, 0.88, 0.9, 0.92, 0.94, 0.96, 0.97, 0.98, 0.99, 1.03, 1.06, 1.1, 1.4, 4,
];

/** What covers a tenth of many cells: a hanger's wire down the frame, and dust of the same area in every other cell. */
const COVERS: Record<string, (xPx: number, yPx: number) => boolean> = {
  'a hanger down the frame': (xPx) =>
    Math.floor(xPx / CELL_PX) % 6 === 3 && xPx % CELL_PX >= 9 && xPx % CELL_PX < 11,
  specks: (xPx, yPx) =>
    (Math.floor(xPx / CELL_PX) + Math.floor(yPx / CELL_PX)) % 4 === 1 &&
    xPx % CELL_PX >= 4 &&
    xPx % CELL_PX < 12 &&
    yPx % CELL_PX >= 7 &&
    yPx % CELL_PX < 12,
};

describe.each([
  { bits: 16, electronsAtFull: null },
  { bits: 8, electronsAtFull: null },
  { bits: 16, electronsAtFull: WELL_ELECTRONS },
  { bits: 8, electronsAtFull: WELL_ELECTRONS },
] as const)('at $bits bits with a well of $electronsAtFull electrons', ({ bits, electronsAtFull }) => {
  /** Light falling by 3 EV from left to right. */
  const light = (xPx: number) =>
    LEVEL.bright * 2 ** (Math.log2(LEVEL.dark / LEVEL.bright) * (xPx / (COLUMNS * CELL_PX)));
  const photographer = noisyCells({
    light,
    widthPx: COLUMNS * CELL_PX,
    heightPx: ROWS * CELL_PX,
    bits,
    electronsAtFull,
    seed: 4,
  });
  const photograph = (transmission?: (xPx: number, yPx: number) => number) =>
    cellsFromFrame(frameOfCodes(photographer(transmission)));
  const clear = photograph();

  test.each(Object.keys(COVERS))('%s over a tenth of a cell moves no cell by more than 0.01 EV', (cover) => {
    const covers = COVERS[cover]!;
    let worst = 0;
    let worstAt = '';
    for (const transmission of TRANSMISSIONS) {
      const covered = photograph((xPx, yPx) => (covers(xPx, yPx) ? transmission : 1));
      expect([covered.columns, covered.rows]).toEqual([COLUMNS, ROWS]);
      covered.light.green.forEach((value, cell) => {
        const movedEv = Math.abs(Math.log2(value / clear.light.green[cell]!)); // NaN where set aside: not moved
        if (movedEv > worst) {
          worst = movedEv;
          worstAt = `transmission ${transmission}, light ${clear.light.green[cell]!.toFixed(3)}`;
        }
      });
    }
    console.log(
      `measured: ${cover}, ${bits} bits, well ${electronsAtFull}: at most ${worst.toFixed(4)} EV (${worstAt})`,
    );
    expect(worst).toBeGreaterThan(0);
    expect(worst).toBeLessThanOrEqual(MOST_MOVED_EV);
  });
});
