import { expect, test } from 'vitest';
import { orientationTurnsSideways, storedRectangle } from '../../../src/engine/grid/upright-rectangle.ts';
import { seededRandom } from '../../../src/engine/numeric/seeded-random.ts';
import type { RenderedFrame } from '../../synthetic/render-frame.ts';
import { storedAs } from '../../synthetic/turn-frame.ts';

const [WIDTH, HEIGHT] = [23, 14];

/** A frame whose every pixel holds its own number. */
const numbered: RenderedFrame = {
  widthPx: WIDTH,
  heightPx: HEIGHT,
  bits: 16,
  samples: Uint16Array.from({ length: WIDTH * HEIGHT * 3 }, (_, i) => Math.floor(i / 3)),
};

function numbersIn(frame: RenderedFrame, { x0, y0, x1, y1 }: ReturnType<typeof storedRectangle>): number[] {
  const numbers: number[] = [];
  for (let y = y0; y < y1; y++)
    for (let x = x0; x < x1; x++) numbers.push(frame.samples[(y * frame.widthPx + x) * 3]!);
  return numbers.sort((a, b) => a - b);
}

test.each([1, 2, 3, 4, 5, 6, 7, 8])(
  'storedRectangle finds the same pixels in a file of orientation %i',
  (orientation) => {
    const stored = storedAs(numbered, orientation);
    expect(orientationTurnsSideways(orientation)).toBe(stored.widthPx === HEIGHT);
    const random = seededRandom(orientation);
    const upTo = (count: number) => Math.floor(random.uniform() * count);
    for (let i = 0; i < 50; i++) {
      const [x0, y0] = [upTo(WIDTH), upTo(HEIGHT)];
      const upright = { x0, y0, x1: x0 + 1 + upTo(WIDTH - x0), y1: y0 + 1 + upTo(HEIGHT - y0) };
      const found = storedRectangle(upright, orientation, stored.widthPx, stored.heightPx);
      expect(numbersIn(stored, found)).toEqual(numbersIn(numbered, upright));
    }
  },
);

test('storedRectangle takes an orientation outside the standard for upright', () => {
  const rectangle = { x0: 1, y0: 2, x1: 5, y1: 7 };
  for (const orientation of [0, 9, Number.NaN])
    expect(storedRectangle(rectangle, orientation, 20, 20)).toEqual(rectangle);
});
