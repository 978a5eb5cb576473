import { describe, expect, test } from 'vitest';
import { LiveMeter } from '../../../src/engine/live/live-meter.ts';
import type { LiveReading } from '../../../src/engine/live/live-reading.ts';
import { DEFAULT_TOLERANCE } from '../../../src/engine/tolerances.ts';
import { fieldTruth } from '../../synthetic/field-truth.ts';
import { exposedBy, type KnownField } from '../../synthetic/known-field.ts';
import { renderFrame } from '../../synthetic/render-frame.ts';

const [WIDTH, HEIGHT] = [320, 180];
const PICTURES_PER_S = 20;
const LEAST_RIGHT_EV = 0.02;

/** A lamp's light on a sheet, brightest at `x`; warmer to the right. */
const lampAt =
  (x: number, level = 0.6): KnownField =>
  (px, py) => {
    const light = level / (1 + 2.2 * ((px - x) ** 2 + (0.5625 * (py - 0.45)) ** 2)) ** 2;
    return [light * 2 ** (0.1 * (px - 0.5)), light, light * 2 ** (-0.1 * (px - 0.5))];
  };

const truthOf = (field: KnownField) =>
  fieldTruth(field, { columns: 40, rows: 22, widthPx: WIDTH, heightPx: HEIGHT }).spreadEv;

function picture(field: KnownField, seed: number, electronsAtFull: number | null = 4000) {
  const { samples } = renderFrame(field, {
    ...{ widthPx: WIDTH, heightPx: HEIGHT, bits: 8, curve: 'srgb', electronsAtFull, seed },
  });
  const rgba = new Uint8Array(WIDTH * HEIGHT * 4);
  for (let i = 0; i < WIDTH * HEIGHT; i++)
    for (let channel = 0; channel < 3; channel++) rgba[i * 4 + channel] = samples[i * 3 + channel]!;
  return { widthPx: WIDTH, heightPx: HEIGHT, samples: rgba };
}

/** Shows a feed whose light at each picture is what `fieldAt` says. */
function follow(
  pictures: number,
  fieldAt: (i: number) => KnownField,
  electrons: number | null = 4000,
): LiveReading[] {
  const meter = new LiveMeter();
  return Array.from({ length: pictures }, (_, i) =>
    meter.add(picture(fieldAt(i), 100 + i, electrons), i / PICTURES_PER_S, DEFAULT_TOLERANCE),
  );
}

describe('a feed of a light that is moved', () => {
  const rest = 10;
  const moved = 20;
  const readings = follow(70, (i) =>
    lampAt(i < rest ? 0.2 : Math.min(0.5, 0.2 + (0.3 * (i - rest)) / moved)),
  );

  test('is read to within 0.02 EV once it stands still', () => {
    const truth = truthOf(lampAt(0.5));
    const last = readings.at(-1)!;
    const error = last.falloff.spreadEv - truth;
    console.log(
      `measured: spread ${last.falloff.spreadEv.toFixed(4)} EV of ${truth.toFixed(4)}, ± ${last.scatterEv!.toFixed(4)}, ` +
        `${last.pictures} pictures averaged`,
    );
    expect(Math.abs(error)).toBeLessThanOrEqual(LEAST_RIGHT_EV);
    expect(Math.abs(error)).toBeLessThanOrEqual(last.scatterEv! + 0.002);
    expect(last.pictures).toBeGreaterThan(25);
    expect(last.isMoving).toBe(false);
  });

  test('is told as moving while it moves, not before, and no longer than half a second after', () => {
    const told = readings.map(({ isMoving }) => isMoving);
    expect(told.slice(0, rest)).not.toContain(true);
    expect(told.slice(rest + 2, rest + moved).filter(Boolean).length).toBeGreaterThan(moved / 2);
    expect(told.slice(rest + moved + PICTURES_PER_S / 2)).not.toContain(true);
  });

  test('grows more even by as much a second as it truly does', () => {
    const at = rest + moved - 1;
    const truePerS = ((truthOf(lampAt(0.5)) - truthOf(lampAt(0.2))) / moved) * PICTURES_PER_S;
    const { trendEvPerS } = readings[at]!;
    console.log(
      `measured: trend ${trendEvPerS!.toFixed(3)} EV/s, in the mean of the move ${truePerS.toFixed(3)}`,
    );
    expect(trendEvPerS).toBeLessThan(0);
    expect(trendEvPerS! / truePerS).toBeGreaterThan(0.5);
    expect(trendEvPerS! / truePerS).toBeLessThan(2);
    expect(readings.at(-1)!.trendEvPerS ?? 0).toBeCloseTo(0, 1);
  });
});

describe('what is no move', () => {
  test('an automatic exposure is told as a drift of the level, and the shape stays averaged', () => {
    const readings = follow(40, (i) => exposedBy(lampAt(0.4), i < 20 ? 0 : -0.5));
    const last = readings.at(-1)!;
    expect(readings.some(({ isMoving }) => isMoving)).toBe(false);
    expect(last.levelDriftEv).toBeCloseTo(-0.5, 1);
    expect(Math.abs(last.falloff.spreadEv - truthOf(lampAt(0.4)))).toBeLessThanOrEqual(LEAST_RIGHT_EV);
  });

  test('an automatic white balance is told as a drift of colour', () => {
    const readings = follow(40, (i) => (x, y) => {
      const [red, green, blue] = lampAt(0.4)(x, y);
      return i < 20 ? [red, green, blue] : [red * 1.1, green, blue / 1.1];
    });
    const last = readings.at(-1)!;
    expect(readings.some(({ isMoving }) => isMoving)).toBe(false);
    expect(last.colourDriftEv).toBeCloseTo(2 * Math.log2(1.1), 1);
  });

  test('flicker of the whole light', () => {
    const readings = follow(40, (i) => exposedBy(lampAt(0.4), 0.1 * Math.sin(i * 1.9)));
    expect(readings.some(({ isMoving }) => isMoving)).toBe(false);
    expect(Math.abs(readings.at(-1)!.falloff.spreadEv - truthOf(lampAt(0.4)))).toBeLessThanOrEqual(
      LEAST_RIGHT_EV,
    );
  });
});

test('a slow move is followed too', () => {
  const readings = follow(70, (i) => lampAt(0.3 + 0.2 * (i / 70)));
  const truth = truthOf(lampAt(0.5));
  expect(readings.some(({ isMoving }) => isMoving)).toBe(true);
  expect(Math.abs(readings.at(-1)!.falloff.spreadEv - truth)).toBeLessThanOrEqual(0.1);
});

test('± covers what the spread is off by in nine of ten feeds standing still, at least', () => {
  let covered = 0;
  const feeds = 12;
  for (let feed = 0; feed < feeds; feed++) {
    const field = lampAt(0.2 + 0.05 * feed, 0.3 + 0.04 * feed);
    const meter = new LiveMeter();
    let last: LiveReading | null = null;
    for (let i = 0; i < 15; i++)
      last = meter.add(picture(field, feed * 50 + i, 1500), i / PICTURES_PER_S, DEFAULT_TOLERANCE);
    if (Math.abs(last!.falloff.spreadEv - truthOf(field)) <= last!.scatterEv!) covered++;
  }
  console.log(`measured: ± covers ${covered} of ${feeds} feeds`);
  expect(covered / feeds).toBeGreaterThanOrEqual(0.9);
});

test('another size of picture begins anew', () => {
  const meter = new LiveMeter();
  for (let i = 0; i < 12; i++) meter.add(picture(lampAt(0.5), i), i / PICTURES_PER_S, DEFAULT_TOLERANCE);
  const half = { widthPx: 160, heightPx: 90, samples: new Uint8Array(160 * 90 * 4).fill(128) };
  const reading = meter.add(half, 1, DEFAULT_TOLERANCE);
  expect(reading.pictures).toBe(1);
  expect(reading.falloff.spreadEv).toBeCloseTo(0, 6);
});

test('a black picture and a white one have no spread, and no NaN', () => {
  for (const code of [0, 255]) {
    const meter = new LiveMeter();
    const flat = { widthPx: WIDTH, heightPx: HEIGHT, samples: new Uint8Array(WIDTH * HEIGHT * 4).fill(code) };
    for (let i = 0; i < 12; i++) {
      const { falloff, clippedShare, verdict } = meter.add(flat, i / PICTURES_PER_S, DEFAULT_TOLERANCE);
      expect(falloff.spreadEv).toBeCloseTo(0, 9);
      expect(clippedShare).toBe(code === 255 ? 1 : 0);
      expect(falloff.evMap).not.toContain(null);
      expect(verdict.exposed).toBe(code === 255 ? 'no' : 'yes');
    }
  }
});
