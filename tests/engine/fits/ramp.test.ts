import { describe, expect, test } from 'vitest';
import { correctionGradient } from '../../../src/engine/fits/correction-gradient.ts';
import { rampAlong } from '../../../src/engine/fits/ramp.ts';
import { tintGradient } from '../../../src/engine/fits/tint-gradient.ts';
import { regionGeometry } from '../../../src/engine/maps/cell-plane.ts';
import { figureTaker } from '../../../src/engine/maps/frame-figures.ts';
import { type FrameRectangle, WHOLE_FRAME } from '../../../src/engine/reading.ts';
import { expectWithin } from '../../expect-within.ts';
import { xyzOfSrgbLight } from '../../synthetic/colour-truth.ts';
import { castOf } from '../../synthetic/field-truth.ts';
import { gridOfLight, SRGB_TO_XYZ } from './grid-of-light.ts';

interface Case {
  readonly columns: number;
  readonly rows: number;
  readonly region?: FrameRectangle;
}

const CASES: Record<string, Case> = {
  'a 3 : 2 frame': { columns: 96, rows: 64 },
  'an upright frame': { columns: 54, rows: 96 },
  'a square frame': { columns: 80, rows: 80 },
  'a region off the centre of a 3 : 2 frame': {
    columns: 48,
    rows: 40, // half of 96 columns, 0.625 of 64 rows
    region: { left: 0.1, top: 0.3, right: 0.6, bottom: 0.925 },
  },
};

/** Log2 light of three channels with slopes per frame width, right and down, in square-pixel coordinates. */
function figuresOf(
  { columns, rows, region = WHOLE_FRAME }: Case,
  slopes: readonly (readonly [number, number])[],
) {
  const aspect = rows / (region.bottom - region.top) / (columns / (region.right - region.left));
  const middle = { x: (region.left + region.right) / 2, y: (region.top + region.bottom) / 2 };
  const grid = gridOfLight(
    (x, y) => {
      const [red, green, blue] = slopes.map(
        ([r, d]) => -1 + r * (x - middle.x) + d * (y - middle.y) * aspect,
      );
      return [red!, green!, blue!];
    },
    { columns, rows, region },
  );
  const geometry = regionGeometry(region, columns, rows, grid.cellWidthPx, grid.cellHeightPx);
  const taker = figureTaker(columns, rows, geometry, grid.toXyz, grid.light.green);
  const width = region.right - region.left;
  return {
    figures: taker.take(grid.light),
    geometry,
    aspect,
    middle,
    width,
    height: (region.bottom - region.top) * aspect,
  };
}

const turnDeg = (from: number, to: number) => ((((to - from) % 360) + 540) % 360) - 180;
const vector = (angleDeg: number, size: number): [number, number] => [
  size * Math.cos((angleDeg * Math.PI) / 180),
  size * Math.sin((angleDeg * Math.PI) / 180),
];

describe.each(Object.entries(CASES))('on %s', (_name, place) => {
  test.each([0, 37, 90, 145, 180, 225, 270, 333])(
    'correctionGradient finds a slope towards %i°, its range over the corners, and where its ends lie',
    (angleDeg) => {
      const [right, down] = vector(angleDeg, 0.8);
      const { figures, geometry, aspect, middle, width, height } = figuresOf(place, [
        [right, down],
        [right, down],
        [right, down],
      ]);
      const ramp = correctionGradient(figures, geometry, SRGB_TO_XYZ);
      expectWithin(turnDeg(angleDeg, ramp.angleDeg), 0, 1e-6);
      expect(ramp.angleDeg >= 0 && ramp.angleDeg < 360).toBe(true);
      const corners = [-1, 1].flatMap((i) => [-1, 1].map((j) => (i * right * width + j * down * height) / 2));
      expectWithin(ramp.ev, Math.max(...corners) - Math.min(...corners), 1e-9);
      // both ends lie on the line through the centre, half of the range to either side of it
      for (const [end, sign] of [
        [ramp.from, -1],
        [ramp.to, 1],
      ] as const) {
        const [x, y] = [end.x - middle.x, (end.y - middle.y) * aspect];
        expectWithin(right * x + down * y, (sign * ramp.ev) / 2, 1e-9);
        expectWithin(x * down - y * right, 0, 1e-9);
      }
      expectWithin(ramp.mired, 0, 1e-9);
      expectWithin(ramp.deltaUv, 0, 1e-9);
    },
  );

  test('a ramp carries the change of colour from its darker to its brighter end', () => {
    const slopes = [
      [0.62, 0.1],
      [0.5, 0.2],
      [0.4, 0.22],
    ] as const;
    const { figures, geometry, aspect, middle } = figuresOf(place, slopes);
    const ramp = correctionGradient(figures, geometry, SRGB_TO_XYZ);
    const lightAt = ({ x, y }: { x: number; y: number }) => {
      const [r, g, b] = slopes.map(
        ([right, down]) => 2 ** (-1 + right * (x - middle.x) + down * (y - middle.y) * aspect),
      );
      return xyzOfSrgbLight([r!, g!, b!]);
    };
    const [from, to] = [castOf(lightAt(ramp.from)), castOf(lightAt(ramp.to))];
    expectWithin(ramp.mired, to.mired - from.mired, 0.1);
    expectWithin(ramp.duv, to.duv - from.duv, 0.0001);
    expectWithin(ramp.deltaUv, Math.hypot(to.uPrime - from.uPrime, to.vPrime - from.vPrime), 0.0001);
    expect(ramp.mired).toBeGreaterThan(5); // red rises faster: the bright end is warmer
  });

  test.each([10, 75, 120, 200, 290, 350])(
    'tintGradient points towards the warmer side at %i°',
    (angleDeg) => {
      const [right, down] = vector(angleDeg, 0.15);
      // the level falls another way, and must not turn the tint's direction
      const { figures, geometry } = figuresOf(place, [
        [0.3 + right, -0.2 + down],
        [0.3, -0.2],
        [0.3 - right, -0.2 - down],
      ]);
      const ramp = tintGradient(figures, geometry, SRGB_TO_XYZ);
      expectWithin(turnDeg(angleDeg, ramp.angleDeg), 0, 0.01);
      expect(ramp.mired).toBeGreaterThan(5);
      expect(ramp.deltaUv).toBeGreaterThan(0.003);
    },
  );
});

test('a tint gradient from green to magenta still lies along its own line', () => {
  const [right, down] = vector(30, 0.2);
  const { figures, geometry } = figuresOf(CASES['a 3 : 2 frame']!, [
    [0, 0],
    [right, down],
    [0, 0],
  ]);
  const { angleDeg, duv } = tintGradient(figures, geometry, SRGB_TO_XYZ);
  expectWithin(Math.abs(turnDeg(30, angleDeg)) % 180, 0, 0.01);
  expect(Math.abs(duv)).toBeGreaterThan(0.003);
});

test('rampAlong a direction of no length is a ramp to the right of no range', () => {
  const flat = [
    [0, 0],
    [0, 0],
    [0, 0],
  ] as const;
  const { figures, geometry } = figuresOf(CASES['a square frame']!, flat);
  const ramp = rampAlong(0, 0, figures, geometry, SRGB_TO_XYZ);
  expect(ramp.angleDeg).toBe(0);
  expectWithin(ramp.ev, 0, 1e-12);
  expect(Object.values(ramp).every((value) => typeof value === 'object' || Number.isFinite(value))).toBe(
    true,
  );
});
