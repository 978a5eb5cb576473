import { expect, test } from 'vitest';
import { EngineError } from '../../../src/engine/engine-error.ts';
import { gainsAt } from '../../../src/engine/profile/gain-lattice.ts';
import { makeProfile } from '../../../src/engine/profile/make-profile.ts';
import type { Profile } from '../../../src/engine/profile/profile.ts';
import { expectWithin } from '../../expect-within.ts';
import { reportOfLight } from './report-of-light.ts';

type Light = (x: number, y: number) => [number, number, number];

/** Two stops from left to right, red slower than blue; every channel's level is linear in x. */
const slope: Light = (x) => [-3 + 1.9 * x, -3 + 2 * x, -3.2 + 2.1 * x];

/** Mean of 2^(a + b x) over 0 to 1. */
const meanLight = (a: number, b: number) => (2 ** (a + b) - 2 ** a) / (b * Math.LN2);
const MEAN = [meanLight(-3, 1.9), meanLight(-3, 2), meanLight(-3.2, 2.1)] as const;
/** The rounded sRGB luminances of the test grid. */
const luminance = (r: number, g: number, b: number) => 0.2126 * r + 0.7152 * g + 0.0722 * b;

function corrected(profile: Profile, light: Light, x: number, y: number): [number, number, number] {
  const gains = gainsAt(profile.lattice, x, y);
  const { red, green, blue } = profile.neutral;
  const [r, g, b] = light(x, y);
  return [red * 2 ** (r + gains[0]), green * 2 ** (g + gains[1]), blue * 2 ** (b + gains[2])];
}

test('makeProfile undoes a known slope exactly: every node brings the light to its mean colour', () => {
  const { lattice } = makeProfile(reportOfLight(slope));
  for (const row of [0, Math.floor(lattice.rows / 2), lattice.rows - 1]) {
    for (let column = 0; column < lattice.columns; column++) {
      const at = row * lattice.columns + column;
      const [red, green, blue] = slope(column / (lattice.columns - 1), 0);
      // 1e-4: the mean is taken over 96 cells, not over the continuum
      expectWithin(lattice.red[at]!, Math.log2(MEAN[0]) - red, 1e-4);
      expectWithin(lattice.green[at]!, Math.log2(MEAN[1]) - green, 1e-4);
      expectWithin(lattice.blue[at]!, Math.log2(MEAN[2]) - blue, 1e-4);
    }
  }
});

test('makeProfile brings the region to the brightest, mean or darkest luminance, at one and the same colour', () => {
  const report = reportOfLight(slope);
  const levelOf = (light: number[]) => luminance(light[0]!, light[1]!, light[2]!);
  const wanted = {
    brightest: luminance(...(slope(1, 0).map((v) => 2 ** v) as [number, number, number])),
    mean: luminance(...MEAN),
    darkest: luminance(...(slope(0, 0).map((v) => 2 ** v) as [number, number, number])),
  };
  for (const reference of ['brightest', 'mean', 'darkest'] as const) {
    const profile = makeProfile(report, { reference, neutral: false });
    expect(profile.reference).toBe(reference);
    for (const x of [0.01, 0.37, 0.99]) {
      const light = corrected(profile, slope, x, 0.5);
      expectWithin(Math.log2(levelOf(light) / wanted[reference]), 0, 3e-4);
      expectWithin(light[0] / light[1], MEAN[0] / MEAN[1], 1e-4);
      expectWithin(light[2] / light[1], MEAN[2] / MEAN[1], 1e-4);
    }
  }
});

test('neutral gains make the mean white at the luminance it had; without them the gains are 1', () => {
  const report = reportOfLight(slope);
  const profile = makeProfile(report);
  const [red, green, blue] = corrected(profile, slope, 0.3, 0.3);
  expectWithin(red / green, 1, 5e-6);
  expectWithin(blue / green, 1, 5e-6);
  expectWithin(Math.log2(luminance(red, green, blue) / luminance(...MEAN)), 0, 2e-4);
  expect(makeProfile(report, { neutral: false }).neutral).toEqual({ red: 1, green: 1, blue: 1 });
});

test('neutral gains keep the luminance at every reference', () => {
  const report = reportOfLight(slope);
  for (const reference of ['brightest', 'mean', 'darkest'] as const) {
    const levels = [true, false].map((neutral) =>
      luminance(...corrected(makeProfile(report, { reference, neutral }), slope, 0.5, 0.5)),
    );
    expectWithin(Math.log2(levels[0]! / levels[1]!), 0, 1e-5);
  }
});

test('nodes outside the region repeat the nearest one inside', () => {
  const region = { left: 0.137, top: 0.21, right: 0.83, bottom: 0.9 };
  const light: Light = (x, y) => [-3 + 1.5 * x + y, -3 + 1.6 * x + y, -3 + 1.5 * x + 1.1 * y];
  const { lattice } = makeProfile(reportOfLight(light, { region }));
  const { columns, rows } = lattice;
  const inside = (i: number, count: number, from: number, to: number) =>
    i / (count - 1) >= from - 1e-9 && i / (count - 1) <= to + 1e-9;
  const insideColumns = Array.from({ length: columns }, (_, i) => i).filter((i) =>
    inside(i, columns, 0.137, 0.83),
  );
  const insideRows = Array.from({ length: rows }, (_, i) => i).filter((i) => inside(i, rows, 0.21, 0.9));
  const nearest = (i: number, all: number[]) => Math.min(Math.max(i, all[0]!), all[all.length - 1]!);
  for (const channel of [lattice.red, lattice.green, lattice.blue]) {
    for (let row = 0; row < rows; row++) {
      for (let column = 0; column < columns; column++) {
        const from = nearest(row, insideRows) * columns + nearest(column, insideColumns);
        expect(channel[row * columns + column]).toBe(channel[from]);
      }
    }
  }
});

test('the lattice is laid so that a region loses next to nothing at its edges', () => {
  let worst = 0;
  for (const region of [
    { left: 0.1, top: 0.1, right: 0.9, bottom: 0.9 },
    { left: 0.137, top: 0.21, right: 0.83, bottom: 0.9 },
    { left: 1 / 3, top: 0.05, right: 0.711, bottom: 0.618 },
  ]) {
    const profile = makeProfile(reportOfLight(slope, { region }), { neutral: false });
    const middle = corrected(profile, slope, (region.left + region.right) / 2, 0.5)[1];
    for (let step = 0; step <= 400; step++) {
      const x = region.left + (step / 400) * (region.right - region.left);
      worst = Math.max(worst, Math.abs(Math.log2(corrected(profile, slope, x, 0.5)[1] / middle)));
    }
  }
  console.log(
    `measured: regions off the lattice lose ${worst.toFixed(4)} EV at their edges, at 2 EV a frame width`,
  );
  expect(worst).toBeLessThanOrEqual(0.005);
});

test('between nodes the gains err by less than 0.002 EV for 3 EV of light, and the file stays under a megabyte', () => {
  // in frame widths, on a square frame: the largest lattice
  const hotSpot =
    (width: number): Light =>
    (x, y) => {
      const level = 3 * Math.exp(-((x - 0.43) ** 2 + (y - 0.52) ** 2) / (2 * width ** 2)) - 4;
      return [level, level, level];
    };
  for (const width of [0.2, 0.3, 0.5]) {
    const light = hotSpot(width);
    const report = reportOfLight(light, { columns: 96, rows: 96, facts: { widthPx: 3000, heightPx: 3000 } });
    const profile = makeProfile(report, { model: 'spline', neutral: false });
    const { lattice } = profile;
    let worst = 0;
    for (let row = 0; row + 1 < lattice.rows; row += 2) {
      for (let column = 0; column + 1 < lattice.columns; column += 2) {
        // the spline itself errs too: compare the middle of four nodes with what light and nodes say together
        const [x, y] = [(column + 0.5) / (lattice.columns - 1), (row + 0.5) / (lattice.rows - 1)];
        const at = row * lattice.columns + column;
        const corners = [0, 1, lattice.columns, lattice.columns + 1].map((step) => lattice.green[at + step]!);
        const places = [0, 1].flatMap((j) =>
          [0, 1].map((i) => [(column + i) / (lattice.columns - 1), (row + j) / (lattice.rows - 1)]),
        );
        const mean =
          corners.reduce((sum, gain, k) => sum + gain + light(places[k]![0]!, places[k]![1]!)[1], 0) / 4;
        worst = Math.max(worst, Math.abs(gainsAt(lattice, x, y)[1] + light(x, y)[1] - mean));
      }
    }
    const length = JSON.stringify(profile).length;
    console.log(
      `measured: a 3 EV hot spot of ${width} frame widths: ${worst.toFixed(5)} EV between the nodes of ${lattice.columns} × ${lattice.rows}, ${length} characters`,
    );
    expect(worst).toBeLessThanOrEqual(0.002);
    expect(length).toBeLessThanOrEqual(1_000_000);
  }
});

test('the largest lattice with the longest numbers stays under a megabyte', () => {
  const steep: Light = (x, y) => [-9.1 + 9 * x * y, -9.2 + 9 * x * y, -9.3 + 9 * x * y];
  const report = reportOfLight(steep, {
    columns: 96,
    rows: 96,
    region: { left: 0.0021, top: 0.0021, right: 0.99, bottom: 0.99 },
    facts: { widthPx: 3000, heightPx: 3000 },
  });
  const length = JSON.stringify(makeProfile(report, { reference: 'darkest' })).length;
  console.log(`measured: a square profile of steep light has ${length} characters`);
  expect(length).toBeLessThanOrEqual(1_000_000);
});

test('makeProfile states the model and what it leaves over in the smoothed cells', () => {
  const bent: Light = (x, y) => {
    const level = -2 - x * x + 0.3 * y;
    return [level, level, level];
  };
  const report = reportOfLight(bent);
  const exact = makeProfile(report, { model: 'quadratic' });
  expect(exact.model.name).toBe('quadratic');
  expect(exact.model.terms).toBe(6);
  expectWithin(exact.model.residualSpreadEv, 0, 1e-3);
  // a plane fitted to −x² leaves x − x² − 1/6: from −1/6 at the ends to 1/12 in the middle
  expectWithin(makeProfile(report, { model: 'plane' }).model.residualSpreadEv, 0.25, 0.02);
  expect(makeProfile(report).model.name).toBe(report.chosen.name);
});

test('makeProfile says which models there are where the one asked for was not fitted', () => {
  const report = reportOfLight(slope, { columns: 3, rows: 2 });
  try {
    makeProfile(report, { model: 'spline' });
    expect.unreachable();
  } catch (error) {
    expect(error).toBeInstanceOf(EngineError);
    expect((error as EngineError).code).toBe('too-small');
    expect((error as EngineError).message).toMatch(/3 × 2 of this frame\. Take one of: plane/);
  }
});

test('makeProfile refuses a model or reference that does not exist, naming it and what there is', () => {
  const report = reportOfLight(slope);
  // as it may come from plain JavaScript
  const asked = (options: object) => () => makeProfile(report, options);
  expect(asked({ model: 'cubic' })).toThrow(RangeError);
  expect(asked({ model: 'cubic' })).toThrow(
    /model is "cubic"; expected one of: plane, quadratic, radial, set, spline/,
  );
  expect(asked({ reference: 'nonsense' })).toThrow(RangeError);
  expect(asked({ reference: 'nonsense' })).toThrow(
    /reference is "nonsense"; expected one of: brightest, mean, darkest/,
  );
  expect(asked({ reference: null })).toThrow(/reference is null/);
});

test('makeProfile says that there is no model of the set to correct by, and what there is', () => {
  expect(() => makeProfile(reportOfLight(slope), { model: 'set' })).toThrow(
    /No model of the set follows this frame .* Take one of: plane, quadratic, radial, spline/,
  );
});
