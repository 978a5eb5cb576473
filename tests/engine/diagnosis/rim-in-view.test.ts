import { describe, expect, test } from 'vitest';
import { rimInView } from '../../../src/engine/diagnosis/rim-in-view.ts';
import type { WholeLight } from '../../../src/engine/diagnosis/whole-light.ts';
import { readFrame, rejudge } from '../../../src/engine/read-frame.ts';
import type { Finding, FrameRectangle } from '../../../src/engine/reading.ts';
import { type Setup, UNKNOWN_SETUP } from '../../../src/engine/setup.ts';
import { DEFAULT_TOLERANCE } from '../../../src/engine/tolerances.ts';
import { expectWithin } from '../../expect-within.ts';
import { nodePlatform } from '../../node-platform.ts';
import { randomStudio } from '../../synthetic/random/random-studio.ts';
import { studioField } from '../../synthetic/studio/studio-field.ts';
import { fileOf } from '../known-frames.ts';
import { measurementOf } from './measurement-of.ts';

const [COLUMNS, ROWS] = [60, 40];

/** The finding in a frame of 60 × 40 cells known in stops, of which a region was read. */
function found(
  ev: (x: number, y: number) => number,
  region: FrameRectangle,
  arrangement: Setup['arrangement'] = 'behind-sheet',
): Finding | null {
  const luminance = Float64Array.from(
    { length: COLUMNS * ROWS },
    (_, cell) => 0.5 * 2 ** ev(((cell % COLUMNS) + 0.5) / COLUMNS, (Math.floor(cell / COLUMNS) + 0.5) / ROWS),
  );
  const wholeLight: WholeLight = { columns: COLUMNS, rows: ROWS, luminance };
  const measurement = measurementOf({ ev, region });
  return rimInView({ measurement, wholeLight, setup: { ...UNKNOWN_SETUP, arrangement } });
}

const light = (x: number, y: number) => -0.4 * (x - 0.3) ** 2 - 0.2 * y;
const INSIDE_LEFT = { left: 0.1, top: 0, right: 1, bottom: 1 };
const leftRim = (lossEv: number) => (x: number, y: number) => light(x, y) - (x < 0.05 ? lossEv : 0);

describe('rimInView(input)', () => {
  test('tells the side, how far a rim reaches in, where it is and what it would take', () => {
    const finding = found(leftRim(2), INSIDE_LEFT)!;
    expect(finding.says).toBe(
      'The dark rim of the sheet is in view: it covers the left 5 % of the frame’s width, which the figures leave out; frame tighter, or move the sheet further left.',
    );
    expectWithin(finding.at!.x, 0.025, 0.001);
    expect(finding.at!.y).toBe(0.5);
    // the darkest of the light lies away from the rim, 0.37 EV down: what the rim adds below it
    const [rimLow, lightLow] = [light(0.008, 0.988) - 2, light(0.99, 0.99)];
    expectWithin(finding.ev!, lightLow - rimLow, 0.03);
    expect(finding.confidence).toBeGreaterThan(0.99);
  });

  test.each<[string, number]>([
    ['the lowest code', -12],
    ['the lowest of 65 536 codes', -20],
    ['a file without any light there', Number.NaN],
  ])('tells a black rim alike, %s', (_what, ev) => {
    // the cell at 0.075 is half covered, its light half of that beside it
    const black = (x: number, y: number) => (x < 0.067 ? ev : light(x, y) - (x < 0.083 ? 1 : 0));
    const finding = found(black, INSIDE_LEFT)!;
    expectWithin(finding.at!.x, 0.075 / 2, 0.001);
    // eight stops below the brightest, a strip is black beside it
    expectWithin(finding.ev!, 8 + (light(0.99, 0.99) - light(0.3, 0)), 0.03);
  });

  test('names two sides, and asks for a larger panel where they are opposite', () => {
    const corner = found((x, y) => light(x, y) - (x > 0.95 || y > 0.9 ? 1 : 0), {
      left: 0,
      top: 0,
      right: 0.9,
      bottom: 0.85,
    })!;
    expect(corner.says).toContain('the right 5 % of the frame’s width and bottom 10 % of the frame’s height');
    expect(corner.says).toContain('move the sheet further right and further down');
    const between = found(
      (x, y) => light(x, y) - (Math.abs(x - 0.5) > 0.45 ? 1 : 0),
      { left: 0.1, top: 0, right: 0.9, bottom: 1 },
      'panel',
    )!;
    expect(between.says).toContain('frame tighter, or set up a larger panel.');
  });

  test.each<[string, Finding | null]>([
    ['where the strip is hardly darker', found(leftRim(0.1), INSIDE_LEFT)],
    ['of a wall, which has no rim', found(leftRim(2), INSIDE_LEFT, 'bounced')],
    ['of a wall of two lights', found(leftRim(2), INSIDE_LEFT, 'two-lamps')],
    ['where half of the side is lit', found((x, y) => (x < 0.06 && y < 0.5 ? -2 : 0), INSIDE_LEFT)],
    [
      'where the sheet fills half the frame',
      found((x) => (x < 0.5 ? -2 : 0), { ...INSIDE_LEFT, left: 0.55 }),
    ],
    ['where the region is the frame', found(leftRim(2), { ...INSIDE_LEFT, left: 0 })],
  ])('finds none %s', (_where, finding) => {
    expect(finding).toBeNull();
  });

  test('finds none where no part of the frame was found', () => {
    const input = { measurement: measurementOf({ ev: light, region: INSIDE_LEFT }), setup: UNKNOWN_SETUP };
    expect(rimInView(input)).toBeNull();
    expect(rimInView({ ...input, wholeLight: null })).toBeNull();
  });
});

/** A drawn studio as a file, 600 pixels wide. */
async function studioFile(seed: number) {
  const studio = randomStudio(seed);
  const { field } = studioField(studio.set);
  return { studio, bytes: await fileOf(field, '16 bit', 600, Math.round(600 * studio.aspect), seed) };
}

const read = (bytes: Uint8Array, setup: Setup, region?: FrameRectangle) =>
  readFrame(
    [{ name: 'a.png', bytes }],
    { setup, tolerance: DEFAULT_TOLERANCE, ...(region ? { region } : {}) },
    nodePlatform,
  );

const rimOf = (findings: readonly Finding[]) => findings.find(({ kind }) => kind === 'rim-in-view') ?? null;

describe('readFrame finds rims in view', () => {
  test.each([5, 12, 30, 45, 70])('in a drawn studio, seed %i, on the side where one is', async (seed) => {
    const { studio, bytes } = await studioFile(seed);
    const rim = studio.planted[0]!;
    if (rim.kind !== 'rim-in-view') throw new Error(`seed ${seed} leads with ${rim.kind}`);
    const report = await read(bytes, studio.setup);
    const finding = rimOf(report.reading.findings)!;
    console.log(
      `measured: seed ${seed}, a rim ${rim.side} over ${(rim.reach * 100).toFixed(1)} %: ${finding.ev!.toFixed(2)} EV, truth ${rim.shareEv!.toFixed(2)} EV, sure to ${finding.confidence.toFixed(2)}; ${finding.says}`,
    );
    const told = Number(
      new RegExp(`the ${rim.side} (\\d+) % of the frame’s (width|height), which`).exec(finding.says)?.[1],
    );
    expectWithin(told / 100, rim.reach, 0.011);
    expectWithin(finding.ev!, rim.shareEv!, 0.1);
    expect(finding.confidence).toBeGreaterThan(0.95);
    // judged anew from what was kept, it is the same; before a wall there is none
    const options = { setup: studio.setup, tolerance: DEFAULT_TOLERANCE };
    expect(rimOf(rejudge(structuredClone(report), options).reading.findings)).toEqual(finding);
    const wall = { ...options, setup: { ...studio.setup, arrangement: 'bounced' as const } };
    expect(rimOf(rejudge(report, wall).reading.findings)).toBeNull();
  });

  test.each([
    [30, '16 bit'],
    [30, '8 bit'],
    [12, '8 bit'],
    [70, 'JPEG 4:2:0'],
  ] as const)('black ones too, seed %i, %s', async (seed, coding) => {
    const studio = randomStudio(seed);
    const rim = { ...studio.set.rim!, level: 0 };
    const { field } = studioField({ ...studio.set, rim });
    const bytes = await fileOf(field, coding, 600, Math.round(600 * studio.aspect), seed);
    const { reading } = await read(bytes, studio.setup);
    const finding = rimOf(reading.findings)!;
    console.log(
      `measured: seed ${seed}, ${coding}, a black rim ${rim.side} over ${(rim.reach * 100).toFixed(1)} %: ${finding.ev!.toFixed(2)} EV; ${finding.says}`,
    );
    const told = Number(new RegExp(`the ${rim.side} (\\d+) %`).exec(finding.says)?.[1]);
    expectWithin(told / 100, rim.reach, 0.006);
    expectWithin(finding.ev!, 8, 1.2);
    const { left, top, right, bottom } = reading.region;
    expect({ left, top, right: 1 - right, bottom: 1 - bottom }[rim.side]).toBeGreaterThan(rim.reach);
  });

  test('not where the reader named the part to read', async () => {
    const { studio, bytes } = await studioFile(5);
    const { reading, wholeLight } = await read(bytes, studio.setup, INSIDE_LEFT);
    expect(rimOf(reading.findings)).toBeNull();
    expect(wholeLight).toBeNull();
  });

  test('not in drawn studios without one', async () => {
    const seeds = Array.from({ length: 8 }, (_, k) => k + 13);
    for (const seed of seeds) {
      const { studio, bytes } = await studioFile(seed);
      if (studio.planted.some(({ kind }) => kind === 'rim-in-view')) continue;
      const { reading } = await read(bytes, studio.setup);
      expect(rimOf(reading.findings), `seed ${seed}`).toBeNull();
    }
  }, 120_000);
});
