import { expect, test } from 'vitest';
import { cellLayout } from '../../../src/engine/grid/cell-layout.ts';
import { cellsFromFrame } from '../../../src/engine/grid/cells-from-frame.ts';
import { centreCells } from '../../../src/engine/grid/centre-cells.ts';
import { WHOLE_FRAME } from '../../../src/engine/reading.ts';
import { renderFrame } from '../../synthetic/render-frame.ts';
import { frameOfCodes } from './frame-of-codes.ts';

const [WIDTH, HEIGHT] = [1210, 805]; // no cell has a whole number of pixels
const plane = (x: number, y: number) => 0.2 + 0.3 * x + 0.2 * y;

test('centreCells puts cells of uneven whole pixels onto the plane that they sample', () => {
  const layout = cellLayout(WIDTH, HEIGHT, WHOLE_FRAME);
  const { columns, rows, xEdges, yEdges } = layout;
  const middle = (edges: Int32Array, i: number, size: number) => (edges[i]! + edges[i + 1]!) / 2 / size;
  const cells = Float64Array.from({ length: columns * rows }, (_, i) =>
    plane(middle(xEdges, i % columns, WIDTH), middle(yEdges, Math.floor(i / columns), HEIGHT)),
  );
  const offEv = () =>
    Math.max(
      ...cells.map((value, i) =>
        Math.abs(
          Math.log2(value / plane(((i % columns) + 0.5) / columns, (Math.floor(i / columns) + 0.5) / rows)),
        ),
      ),
    );
  const before = offEv();
  centreCells(cells, layout);
  console.log(`measured: ripple ${before.toExponential(1)} EV before, ${offEv().toExponential(1)} EV after`);
  expect(before).toBeGreaterThan(0.0005);
  // the slope is taken between neighbours that are themselves off their centres: second order remains
  expect(offEv()).toBeLessThan(before / 8);
});

test('cellsFromFrame reads a slope of 3 EV without a ripple from uneven cells', () => {
  const level = (x: number) => 0.8 * 2 ** (-3 * x);
  const frame = renderFrame((x) => [level(x), level(x), level(x)], {
    widthPx: WIDTH,
    heightPx: HEIGHT,
    bits: 16,
    curve: 'srgb',
    electronsAtFull: null,
    seed: 1,
  });
  const { columns, rows, light } = cellsFromFrame(frameOfCodes(frame));
  const cell = 3 / columns;
  const meanOverCell = (2 ** (cell / 2) - 2 ** (-cell / 2)) / (cell * Math.LN2);
  let worst = 0;
  for (let i = 0; i < columns * rows; i++) {
    const truth = level(((i % columns) + 0.5) / columns) * meanOverCell;
    worst = Math.max(worst, Math.abs(Math.log2(light.green[i]! / truth)));
  }
  console.log(`measured: cells of ${(WIDTH / columns).toFixed(2)} px lie within ${worst.toFixed(5)} EV`);
  expect(worst).toBeLessThan(0.001);
});
