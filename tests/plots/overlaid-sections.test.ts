import { expect, test } from 'vitest';
import { overlaidSections } from '../../src/plots/overlaid-sections.ts';
import { expectWithin } from '../expect-within.ts';

const SIZE = { width: 300, height: 100, fontSize: 10 };

/** Pictures of 60 × 40 pixels by functions of place, 0 to 1, in stops. */
function preview(
  before: (x: number, y: number) => number,
  after: (x: number, y: number) => number,
  isBackground: ((x: number, y: number) => boolean) | null = null,
) {
  const [widthPx, heightPx] = [60, 40];
  const pixels = <Value>(of: (x: number, y: number) => Value) =>
    Array.from({ length: widthPx * heightPx }, (_, at) =>
      of(((at % widthPx) + 0.5) / widthPx, (Math.floor(at / widthPx) + 0.5) / heightPx),
    );
  const picture = (ev: typeof before) => ({
    stops: Float32Array.from(pixels(ev)),
    rgba: new Uint8ClampedArray(widthPx * heightPx * 4),
  });
  return {
    ...{ widthPx, heightPx, before: picture(before), after: picture(after) },
    backgroundAt:
      isBackground === null ? null : Uint8Array.from(pixels((x, y) => (isBackground(x, y) ? 1 : 0))),
  };
}

const ends = (path: string) => {
  const points = path.match(/-?[\d.]+/g)!.map(Number);
  return { left: points[1]!, right: points.at(-1)!, all: points.filter((_, i) => i % 2 === 1) };
};

test('overlaidSections(preview) draws what is even as a level line and what falls as a falling one', () => {
  const { across, down, ticks } = overlaidSections(
    preview(
      (x) => -0.5 - x,
      () => -1,
    ),
    { x: 0.5, y: 0.5 },
    SIZE,
  );
  const even = ends(across.after);
  expect(even.left).toBe(even.right);
  const falling = ends(across.before);
  expect(falling.right - falling.left).toBeGreaterThan(70);
  // both lines to one scale: the even level lies where the falling line passes it
  expectWithin(even.left, (falling.left + falling.right) / 2, 0.2);
  expect(ends(down.before).left).toBe(ends(down.before).right);
  expectWithin(across.spotAt, 152.5, 0.01);
  const perStop = (ticks.at(-1)!.at - ticks[0]!.at) / (ticks[0]!.ev - ticks.at(-1)!.ev);
  expectWithin(falling.right - falling.left, perStop * (59 / 60), 0.2);
});

test('overlaidSections(preview) is to the scale of the background; a dark subject runs along the lower edge', () => {
  const isBackground = (x: number) => x < 0.4 || x > 0.6;
  const light = (x: number) => (isBackground(x) ? -1 - 0.3 * x : -9);
  const { across } = overlaidSections(preview(light, light, isBackground), { x: 0.5, y: 0.5 }, SIZE);
  const { left, right, all } = ends(across.before);
  expect(Math.max(...all)).toBe(SIZE.height);
  expect(right - left).toBeGreaterThan(50);
});

test.each([
  [0.02, 0.4],
  [8, 3],
])('overlaidSections(preview) of a fall of %s stop shows %s stops', (fall, shown) => {
  const light = (x: number) => -fall * x;
  const { ticks } = overlaidSections(preview(light, light), { x: 1, y: 1 }, SIZE);
  const perStop = (ticks.at(-1)!.at - ticks[0]!.at) / (ticks[0]!.ev - ticks.at(-1)!.ev);
  expectWithin(SIZE.height / perStop, shown, 1e-6);
  for (const { ev } of ticks) expectWithin(ev * 10, Math.round(ev * 10), 1e-9);
  for (let i = 1; i < ticks.length; i++)
    expect(ticks[i]!.at - ticks[i - 1]!.at).toBeGreaterThanOrEqual(1.8 * SIZE.fontSize);
});
