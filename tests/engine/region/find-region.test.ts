import { describe, expect, test } from 'vitest';
import { cellsFromFrame } from '../../../src/engine/grid/cells-from-frame.ts';
import { seededRandom } from '../../../src/engine/numeric/seeded-random.ts';
import { cellLevels } from '../../../src/engine/region/cell-levels.ts';
import { findRegion } from '../../../src/engine/region/find-region.ts';
import { lightSteps } from '../../../src/engine/region/light-steps.ts';
import { BUSY } from '../../busy-machine.ts';
import { FIELD_FAMILIES } from '../../synthetic/field-families.ts';
import { quickened } from '../../synthetic/field-lattice.ts';
import { type KnownField, randomField } from '../../synthetic/known-field.ts';
import type { RenderOptions } from '../../synthetic/render-frame.ts';
import { frameOfCodes } from '../grid/frame-of-codes.ts';
import { grey, photographed, regionOf } from './blank-frames.ts';
import {
  clearance,
  halfFrame,
  largestInscribedShare,
  lightOfScene,
  type Outline,
  roundSheet,
  type Scene,
  TALL,
  tiltedSheet,
} from './lit-sheets.ts';

const WHOLE = { region: { left: 0, top: 0, right: 1, bottom: 1 }, found: false, says: '' };

describe('findRegion(grid, frame) returns exactly the whole frame where the light fills it:', () => {
  test('104 fields of all families with 3 EV of falloff, bright, dark, clipped and noisy', () => {
    let steepest = 0;
    for (let k = 0; k < 13 * FIELD_FAMILIES.length; k++) {
      const family = FIELD_FAMILIES[k % FIELD_FAMILIES.length]!;
      const peak = [0.9, 1.8, 0.9, 0.05][Math.floor(k / 8) % 4]!;
      const electronsAtFull = k % 6 === 0 ? 30_000 : null;
      const { field, describe: what } = randomField(k + 1, { family, spreadEv: 3, peak });
      const frame = photographed(field, { electronsAtFull, seed: k });
      const grid = cellsFromFrame(frame);
      expect(findRegion(grid, frame), what).toEqual(WHOLE);
      const { steps } = lightSteps(cellLevels(grid, frame), grid.columns, grid.rows, 0.02);
      for (const { stops } of steps) steepest = Math.max(steepest, stops);
    }
    console.log(`measured: light alone steps by at most ${steepest.toFixed(3)} stops; an edge needs 0.5`);
  });

  const even = randomField(5, { spreadEv: 1 }).field;
  const hanger = { shape: 'box', transmission: 0.02 } as const;
  const things: [string, Partial<RenderOptions>][] = [
    [
      'dust',
      {
        specks: Array.from({ length: 40 }, (_, k) => ({
          shape: 'disc' as const,
          x: ((k * 37) % 97) / 97,
          y: ((k * 53) % 89) / 89,
          widthPx: 5,
          heightPx: 5,
          transmission: 0.1,
        })),
      },
    ],
    ['a hanger from above', { specks: [{ ...hanger, x: 0.4, y: 0.2, widthPx: 6, heightPx: 210 }] }],
    ['a clamp in a corner', { specks: [{ ...hanger, x: 0, y: 0, widthPx: 80, heightPx: 60 }] }],
    ['a stand that reaches in', { specks: [{ ...hanger, x: 0.97, y: 0.8, widthPx: 20, heightPx: 250 }] }],
  ];
  test.each(things)('a sheet with %s', (_what, options) => {
    expect(regionOf(photographed(even, options))).toEqual(WHOLE);
  });

  test('corners that fall off into blackness', () => {
    const field: KnownField = (x, y) => grey(0.9 * 2 ** (-14 * Math.hypot(x - 0.5, y - 0.5) ** 2 * 2))(x, y);
    expect(regionOf(photographed(field))).toEqual(WHOLE);
    expect(regionOf(photographed(field, { bits: 16 }))).toEqual(WHOLE);
  });

  test('a frame of so few cells that an edge can’t be told', () => {
    const half = lightOfScene({ outline: halfFrame(0.5, 0.3, 0), sheet: grey(0.6), surroundings: grey(0) });
    expect(regionOf(photographed(half, { widthPx: 96, heightPx: 64 }))).toEqual(WHOLE);
  });
});

const SHEETS: [string, Outline][] = [
  ...[-20, -11, -4, 0, 7, 20].map((tilt): [string, Outline] => [
    `a sheet tilted by ${tilt}°`,
    tiltedSheet(0.5, 0.34, 0.75, 0.48, tilt),
  ]),
  ['a small sheet', tiltedSheet(0.53, 0.3, 0.46, 0.32, 0)],
  ['a round sheet', roundSheet(0.5, 0.33, 0.3)],
  ['a round sheet cut by the frame', roundSheet(0.42, 0.28, 0.5)],
  ['the left half', halfFrame(0.5, 0.3, 0)],
  ['half, its edge tilted', halfFrame(0.5, 0.33, 102)],
  ['a strip', tiltedSheet(0.5, 0.3, 3, 0.3, 0)],
  ['a tilted strip', tiltedSheet(0.5, 0.32, 3, 0.36, 8)],
  ['all but two columns', halfFrame(0.978, 0.3, 0)],
];
const SURROUNDINGS: [string, KnownField][] = [
  ['black', grey(0)],
  ['dim', grey(0.1)],
  ['blue', () => [0.01, 0.05, 0.25]],
];

describe('findRegion(grid, frame) finds the largest upright rectangle inside the light:', () => {
  test.each(SHEETS)('%s', (_what, outline) => {
    SURROUNDINGS.forEach(([around, surroundings], k) => {
      const sheet = quickened(randomField(7 + k, { spreadEv: 1.2, peak: 0.9 }).field);
      const softness = [0.016, 0.008, undefined][k];
      const scene: Scene = { outline, sheet, surroundings, ...(softness ? { softness } : {}) };
      const { region, found, says } = regionOf(
        photographed(lightOfScene(scene), { electronsAtFull: 30_000 }),
      );
      expect(found, around).toBe(true);
      expect(says).toMatch(/part of the frame/);
      const share = (region.right - region.left) * (region.bottom - region.top);
      const covers = share / largestInscribedShare(scene);
      const clearCells = 96 * clearance(region, scene);
      console.log(
        `measured: ${around}, edge ${softness ? `${(192 * softness).toFixed(1)} cells wide` : 'sharp'}: ${(100 * covers).toFixed(0)} % of the largest, ${clearCells.toFixed(1)} cells clear of the edge`,
      );
      expect(covers).toBeGreaterThanOrEqual(0.85);
      expect(clearCells).toBeGreaterThan(0);
    });
  });

  test('sides that the sheet reaches beyond are exactly the frame’s', () => {
    const half = lightOfScene({
      outline: halfFrame(0.5, 0.3, 0),
      sheet: grey(0.6),
      surroundings: grey(0.01),
    });
    const { left, top, bottom } = regionOf(photographed(half)).region;
    expect([left, top, bottom]).toEqual([0, 0, 1]);
  });
});

describe('findRegion(grid, frame) leaves the whole frame, in doubt:', () => {
  const whole = (field: KnownField) => {
    const { region, found, says } = regionOf(photographed(field, { electronsAtFull: 30_000 }));
    expect({ region, found }).toEqual({ region: WHOLE.region, found: false });
    return says;
  };
  const tilted = tiltedSheet(0.5, 0.34, 0.75, 0.48, 6);
  const dark = grey(0.02);

  test('surroundings brighter than the sheet, saying so', () => {
    expect(whole(lightOfScene({ outline: tilted, sheet: grey(0.3), surroundings: grey(0.8) }))).toMatch(
      /can’t be told/,
    );
  });
  test('a window beside the sheet, brighter than it, saying so', () => {
    const surroundings: KnownField = (x, y) => grey(x > 0.5 ? 0.9 : 0.02)(x, y);
    expect(whole(lightOfScene({ outline: tilted, sheet: grey(0.4), surroundings }))).toMatch(/can’t be told/);
  });
  test('surroundings as bright as the sheet', () => {
    whole(lightOfScene({ outline: tilted, sheet: grey(0.5), surroundings: grey(0.48) }));
  });
  test('a sheet of a tenth of the frame', () => {
    whole(
      lightOfScene({ outline: tiltedSheet(0.5, 0.3, 0.32, 0.2, 5), sheet: grey(0.5), surroundings: dark }),
    );
  });
  test('two panels side by side', () => {
    const gap = tiltedSheet(0.5, 0.3, 0.1, 2, 4);
    whole(lightOfScene({ outline: gap, sheet: dark, surroundings: grey(0.6) }));
  });
  test('a bar of two cells right across the light', () => {
    whole(
      lightOfScene({ outline: tiltedSheet(0.5, 0.3, 2, 2 / 96, 0), sheet: dark, surroundings: grey(0.6) }),
    );
  });
  test('a dark box in the middle of the light', () => {
    whole(
      lightOfScene({ outline: tiltedSheet(0.5, 0.35, 0.2, 0.24, 0), sheet: dark, surroundings: grey(0.6) }),
    );
  });
  test('a tumbler that stands on the lower side', () => {
    whole(
      lightOfScene({ outline: tiltedSheet(0.45, 0.55, 0.16, 0.5, 0), sheet: dark, surroundings: grey(0.6) }),
    );
  });
  test('a row of dark tumblers of different heights', () => {
    whole((x, y) => {
      const height = 0.15 + 0.12 * ((Math.floor(x * 7) * 3) % 4);
      const inside = (x * 7) % 1 < 0.8 && y * TALL > TALL - height;
      return inside ? [0.03, 0.03, 0.05] : [0.6, 0.6, 0.6];
    });
  });
});

test('findRegion(grid, frame) finds 30 random sheets with sharp edges under up to 2 EV of falloff', () => {
  const random = seededRandom(5);
  const between = (low: number, high: number) => low + (high - low) * random.uniform();
  const draw: (() => Outline)[] = [
    () =>
      tiltedSheet(
        between(0.35, 0.65),
        between(0.25, 0.42),
        between(0.6, 1),
        between(0.45, 0.7),
        between(-20, 20),
      ),
    () => roundSheet(between(0.4, 0.6), between(0.28, 0.4), between(0.28, 0.5)),
    () => halfFrame(between(0.35, 0.65), between(0.3, 0.37), between(0, 360)),
    () => tiltedSheet(0.5, between(0.25, 0.42), 3, between(0.3, 0.45), between(-8, 8)),
  ];
  let [tried, least, nearest] = [0, 1, Number.POSITIVE_INFINITY];
  for (let k = 0; k < 30; k++) {
    const outline = draw[k % draw.length]!();
    const family = FIELD_FAMILIES[k % 7]!;
    const sheet = quickened(randomField(k + 1, { family, spreadEv: between(0.1, 2), peak: 0.9 }).field);
    const scene: Scene = { outline, sheet, surroundings: grey([0, 0.002, 0.02, 0.08][(k >> 2) % 4]!) };
    const largest = largestInscribedShare(scene);
    if (largest < 0.2) continue; // too near to a sixth, where either answer is right
    tried++;
    const { region, found } = regionOf(photographed(lightOfScene(scene), { seed: k }));
    expect(found, `sheet ${k}`).toBe(true);
    least = Math.min(least, ((region.right - region.left) * (region.bottom - region.top)) / largest);
    nearest = Math.min(nearest, 96 * clearance(region, scene));
  }
  console.log(
    `measured: ${tried} sheets: at least ${(100 * least).toFixed(0)} % of the largest rectangle, at least ${nearest.toFixed(2)} cells clear`,
  );
  expect(tried).toBeGreaterThanOrEqual(24);
  expect(least).toBeGreaterThanOrEqual(0.85);
  expect(nearest).toBeGreaterThan(0);
});

test('findRegion(grid, frame) costs little beside the passes over 6 megapixels', BUSY, () => {
  const [widthPx, heightPx] = [3000, 2000];
  const samples = new Uint8Array(widthPx * heightPx * 3);
  for (let at = 0; at < samples.length; at++)
    samples[at] = Math.floor(at / 3) % widthPx < 1700 ? 190 + (at % 5) : 6;
  const frame = frameOfCodes({ widthPx, heightPx, bits: 8, samples });
  const timed = <T>(work: () => T): [T, number] => {
    const times: number[] = [];
    let made: T | undefined;
    for (let k = 0; k < 5; k++) {
      const start = performance.now();
      made = work();
      times.push(performance.now() - start);
    }
    return [made!, Math.min(...times)];
  };
  const [grid, firstMs] = timed(() => cellsFromFrame(frame));
  const [{ region, found }, findMs] = timed(() => findRegion(grid, frame));
  const [, secondMs] = timed(() => cellsFromFrame(frame, region));
  console.log(
    `measured: first pass ${firstMs.toFixed(1)} ms, finding ${findMs.toFixed(1)} ms, second pass over ${(100 * region.right).toFixed(0)} % ${secondMs.toFixed(1)} ms (fastest of 5)`,
  );
  expect(found).toBe(true);
  expect(findMs).toBeLessThan(60);
});
