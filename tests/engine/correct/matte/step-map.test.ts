import { expect, test } from 'vitest';
import { LEAST_STEP_EV, markSteps } from '../../../../src/engine/correct/matte/step-map.ts';
import { seededRandom } from '../../../../src/engine/numeric/seeded-random.ts';

const COLUMNS = 200;
const ROWS = 120;

function marked(stops: (x: number, y: number) => number, noise: number): Uint8Array {
  const random = seededRandom(3);
  const plane = Float32Array.from(
    { length: COLUMNS * ROWS },
    (_, at) => stops(at % COLUMNS, Math.floor(at / COLUMNS)) + noise * random.normal(),
  );
  const marks = new Uint8Array(plane.length);
  markSteps(plane, COLUMNS, ROWS, () => true, LEAST_STEP_EV, marks);
  return marks;
}

const count = (marks: Uint8Array) => marks.reduce((sum, mark) => sum + mark, 0);

test('a step of 0.05 stop in noise of 0.01 is marked all along, and nothing else is', () => {
  const marks = marked((x) => (x < 100 ? 0 : 0.05), 0.01);
  let gaps = 0;
  let elsewhere = 0;
  for (let y = 0; y < ROWS; y++) {
    let isMarked = false;
    for (let x = 0; x < COLUMNS; x++) {
      if (!marks[y * COLUMNS + x]) continue;
      if (Math.abs(x + 0.5 - 100) <= 4) isMarked = true;
      else elsewhere++;
    }
    if (!isMarked) gaps++;
  }
  console.log(`measured: ${gaps} of ${ROWS} rows without a mark, ${elsewhere} cells marked elsewhere`);
  expect(gaps).toBe(0);
  expect(elsewhere).toBeLessThanOrEqual(5);
});

test('a slope, and the soft rim of a shadow, are no steps', () => {
  expect(count(marked((x) => 0.02 * x, 0.01))).toBeLessThanOrEqual(5);
  // a shadow of a stop over a blur of ten cells
  const shadow = (x: number) => -1 / (1 + Math.exp(-(x - 100) / 6));
  expect(count(marked(shadow, 0.01))).toBeLessThanOrEqual(5);
});

test('what rises faster than any shadow is a step however blurred', () => {
  const rim = (x: number) => -3 / (1 + Math.exp(-(x - 100) / 5));
  expect(count(marked(rim, 0))).toBeGreaterThan(ROWS);
});
