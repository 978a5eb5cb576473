import type { SeededRandom } from '../../src/engine/numeric/seeded-random.ts';

/** Relative log2 light at a frame position, in any unit and with any offset: the caller scales it to a spread. */
export type FieldShape = (x: number, y: number) => number;

export const FIELD_FAMILIES = [
  'plane',
  'quadratic',
  'radial',
  'hot-spot',
  'two-bumps',
  'sinusoid',
  'kinked',
  'ridge',
] as const;

export type FieldFamily = (typeof FIELD_FAMILIES)[number];

/** Families that no polynomial of low degree and no fall along one radius describes. */
export const FAMILIES_OUTSIDE_POLYNOMIALS: readonly FieldFamily[] = [
  'hot-spot',
  'two-bumps',
  'sinusoid',
  'kinked',
  'ridge',
];

/** Draws one member of a family. */
export function randomShape(family: FieldFamily, random: SeededRandom): FieldShape {
  return DRAW[family](random);
}

const between = (random: SeededRandom, low: number, high: number) => low + (high - low) * random.uniform();

const DRAW: Record<FieldFamily, (random: SeededRandom) => FieldShape> = {
  plane: (random) => {
    const angle = between(random, 0, 2 * Math.PI);
    const [c, s] = [Math.cos(angle), Math.sin(angle)];
    return (x, y) => c * x + s * y;
  },
  quadratic: (random) => {
    const [x0, y0] = [between(random, -0.2, 1.2), between(random, -0.2, 1.2)];
    const [xx, yy, xy] = [between(random, 0.3, 1), between(random, 0.3, 1), between(random, -0.5, 0.5)];
    const [gx, gy] = [between(random, -0.4, 0.4), between(random, -0.4, 0.4)];
    return (x, y) => {
      const [dx, dy] = [x - x0, y - y0];
      return -(xx * dx * dx + yy * dy * dy + xy * dx * dy) + gx * x + gy * y;
    };
  },
  // cos^m of the angle from a point, as a polynomial in r² never quite is
  radial: (random) => {
    const [x0, y0] = [between(random, 0.2, 0.8), between(random, 0.2, 0.8)];
    const distance = between(random, 0.6, 1.6);
    const tall = between(random, 0.6, 0.8);
    return (x, y) => {
      const [dx, dy] = [(x - x0) / distance, ((y - y0) * tall) / distance];
      return -Math.log2(1 + dx * dx + dy * dy);
    };
  },
  'hot-spot': (random) => {
    const [x0, y0] = [between(random, 0.15, 0.85), between(random, 0.15, 0.85)];
    const width = between(random, 0.12, 0.4);
    const floor = between(random, 0.1, 0.6);
    return (x, y) => {
      const [dx, dy] = [(x - x0) / width, (y - y0) / width];
      return Math.log2(floor + Math.exp(-0.5 * (dx * dx + dy * dy)));
    };
  },
  'two-bumps': (random) => {
    const [xa, ya, wa] = [between(random, 0, 0.4), between(random, 0.2, 0.8), between(random, 0.15, 0.4)];
    const [xb, yb, wb] = [between(random, 0.6, 1), between(random, 0.2, 0.8), between(random, 0.15, 0.4)];
    const power = between(random, 0.4, 1);
    return (x, y) => {
      const a = ((x - xa) ** 2 + (y - ya) ** 2) / (wa * wa);
      const b = ((x - xb) ** 2 + (y - yb) ** 2) / (wb * wb);
      return Math.log2(0.2 + Math.exp(-0.5 * a) + power * Math.exp(-0.5 * b));
    };
  },
  sinusoid: (random) => {
    const [fx, fy] = [between(random, 0.5, 2.5), between(random, 0.5, 2.5)];
    const [px, py] = [between(random, 0, 2 * Math.PI), between(random, 0, 2 * Math.PI)];
    const slope = between(random, -1.5, 1.5);
    return (x, y) =>
      Math.sin(2 * Math.PI * fx * x + px) + Math.cos(2 * Math.PI * fy * y + py) + slope * (x - y);
  },
  // the rim of a sheet's shadow: the slope changes along a line, nothing jumps
  kinked: (random) => {
    const angle = between(random, 0, 2 * Math.PI);
    const [c, s] = [Math.cos(angle), Math.sin(angle)];
    const [before, after] = [between(random, -1, 0.3), between(random, 0.3, 1.5)];
    const at = between(random, -0.25, 0.25);
    return (x, y) => {
      const along = c * (x - 0.5) + s * (y - 0.5) - at;
      return along < 0 ? before * along : after * along;
    };
  },
  ridge: (random) => {
    const angle = between(random, 0, Math.PI);
    const [c, s] = [Math.cos(angle), Math.sin(angle)];
    const [at, width, bend] = [
      between(random, -0.2, 0.2),
      between(random, 0.15, 0.5),
      between(random, -0.6, 0.6),
    ];
    return (x, y) => {
      const along = -s * (x - 0.5) + c * (y - 0.5);
      const across = (c * (x - 0.5) + s * (y - 0.5) - at + bend * along * along) / width;
      return -Math.sqrt(1 + across * across);
    };
  },
};
