import { expect, test } from 'vitest';
import { type NextParameter, type Parameter, parameterReader } from '../../../src/engine/lamps/parameters.ts';
import { seededRandom } from '../../../src/engine/numeric/seeded-random.ts';
import { expectWithin } from '../../expect-within.ts';

/** Figures of a made-up set, in the order in which they are asked for. */
const ask = (next: NextParameter) => [
  next('width', 3, 0.5),
  next.rarely('aim', 0.08),
  next('level', -2, 10),
  next.rarely('loss', 0.3, { tail: 1.2 }),
];

function readerOf(build: (next: NextParameter) => number[]) {
  const list: Parameter[] = [];
  const reader = parameterReader(list);
  return { list, at: (point: Float64Array) => build(reader(point)) };
}

test('a point that is too short gives what is expected and names what was asked, once and in order', () => {
  const { list, at } = readerOf(ask);
  expect(at(new Float64Array(0))).toEqual([3, 0, -2, 0]);
  expect(list.map(({ name }) => name)).toEqual(['width', 'aim', 'level', 'loss']);
  at(Float64Array.of(1, 1, 1, 1));
  at(new Float64Array(0));
  expect(list.map(({ name }) => name)).toEqual(['width', 'aim', 'level', 'loss']);
  expect(at(Float64Array.of(2))).toEqual([4, 0, -2, 0]);
});

test('pointAt is the inverse of building, for normal and for rare figures', () => {
  const { list, at } = readerOf(ask);
  at(new Float64Array(0));
  const random = seededRandom(9);
  for (let i = 0; i < 200; i++) {
    const point = Float64Array.from(list, () => 2 * random.normal());
    at(point).forEach((figure, k) => {
      expectWithin(list[k]!.pointAt(figure), point[k]!, 1e-9);
    });
  }
  for (const figure of [-3, -0.1, 0, 1e-4, 2]) {
    const point = Float64Array.from(list, ({ pointAt }) => pointAt(figure));
    for (const built of at(point)) expectWithin(built, figure, 1e-9);
  }
});

test('a normal figure varies by its deviation, a rare one as documented: half within, one in twenty beyond', () => {
  const { at } = readerOf((next) => [
    next('normal', 5, 0.25),
    next.rarely('tail of 1.6', 2),
    next.rarely('tail of 1.2', 2, { tail: 1.2 }),
  ]);
  const random = seededRandom(2);
  const COUNT = 10_000;
  const drawn = Array.from({ length: COUNT }, () =>
    at(Float64Array.from({ length: 3 }, () => random.normal())),
  );
  const share = (holds: (figures: number[]) => boolean) => drawn.filter(holds).length / COUNT;
  // three standard deviations of such counts
  expectWithin(
    share(([normal]) => Math.abs(normal! - 5) < 0.25),
    0.6827,
    0.014,
  );
  for (const [k, half, beyond] of [
    [1, 0.65, 6],
    [2, 0.45, 2.6],
  ] as const) {
    const size = (figures: number[]) => Math.abs(figures[k]!) / 2;
    const sorted = drawn.map(size).sort((a, b) => a - b);
    console.log(
      `measured: half within ${sorted[COUNT / 2]!.toFixed(2)}, one in twenty beyond ${sorted[COUNT * 0.95]!.toFixed(2)} of what is usual (documented: ${half}, ${beyond})`,
    );
    expectWithin(
      share((figures) => size(figures) < half),
      0.5,
      0.015,
    );
    expectWithin(
      share((figures) => size(figures) > beyond),
      0.05,
      0.0075,
    );
    expectWithin(
      share((figures) => figures[k]! > 0),
      0.5,
      0.015,
    );
  }
});
