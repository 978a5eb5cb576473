import { beforeAll, describe, expect, test } from 'vitest';
import { type Estimate, estimateOf } from '../../src/engine/lamps/estimate.ts';
import { fitSet } from '../../src/engine/lamps/fit-set.ts';
import { likelySets } from '../../src/engine/lamps/likely-sets.ts';
import type { SecondFrame, SecondFrameRole } from '../../src/engine/lamps/second-frame.ts';
import { seenFrames } from '../../src/engine/lamps/seen-frames.ts';
import { setModel } from '../../src/engine/lamps/set-model.ts';
import { startingPoints } from '../../src/engine/lamps/starting-points.ts';
import type { Move } from '../../src/engine/moves/move.ts';
import { type FrameReport, readFrame, rejudge } from '../../src/engine/read-frame.ts';
import { type Setup, UNKNOWN_SETUP } from '../../src/engine/setup.ts';
import { DEFAULT_TOLERANCE } from '../../src/engine/tolerances.ts';
import { expectWithin } from '../expect-within.ts';
import { nodePlatform } from '../node-platform.ts';
import { lampOffSet, slidSet, stoppedDownSet } from '../synthetic/random/other-takes.ts';
import { photographSet } from '../synthetic/studio/photograph-set.ts';
import { plainLamp, type StudioSet } from '../synthetic/studio/studio-set.ts';
import { fileOf } from './known-frames.ts';

const [WIDTH_MM, HEIGHT_MM] = [600, 400];
const [WIDTH_PX, HEIGHT_PX] = [480, 320];
const DAYLIGHT = { kind: 'daylight', kelvin: 5500 } as const;

const WALL: StudioSet = {
  frameWidthMm: WIDTH_MM,
  frameHeightMm: HEIGHT_MM,
  cameraDistanceMm: 1500,
  background: { kind: 'wall' },
  lamps: [plainLamp({ distanceMm: 1000 })],
  spill: null,
  lens: null,
  whiteBalance: DAYLIGHT,
  exposure: { peak: 0.7 },
};

const SETUP: Setup = {
  ...UNKNOWN_SETUP,
  arrangement: 'bounced',
  frameWidthMm: WIDTH_MM,
  lampDistanceMm: [1000],
  lampWidthMm: 180,
  cameraDistanceMm: 1500,
};

async function read(set: StudioSet, setup: Setup, role?: SecondFrameRole): Promise<FrameReport> {
  const bytes = await fileOf(photographSet(set).field, '16 bit', WIDTH_PX, HEIGHT_PX, role ? 2 : 1);
  const options = { setup, tolerance: DEFAULT_TOLERANCE, ...(role && { role }) };
  return readFrame([{ name: 'frame.png', bytes }], options, nodePlatform);
}

async function second(set: StudioSet, role: SecondFrameRole): Promise<SecondFrame> {
  const { samples, set: fitted } = await read(set, SETUP, role);
  expect(fitted).toBeNull(); // no set is fitted to a second frame alone
  return { role, samples };
}

const told = ({ reading }: FrameReport) =>
  reading.findings.map(({ kind, ev }) => `${kind} ${ev?.toFixed(2)}`);
const judged = (report: FrameReport, ...secondFrames: SecondFrame[]) =>
  rejudge(report, { setup: report.fittedWith.setup, tolerance: DEFAULT_TOLERANCE, secondFrames });

describe('light of the room in the lights’ own colour', () => {
  const level = photographSet({ ...WALL, exposure: { factor: 1 } }).field(0.5, 0.5)[1];
  const set: StudioSet = {
    ...WALL,
    lamps: [plainLamp({ distanceMm: 1000, xMm: 60 })],
    spill: { level: 0.1 * level, colour: DAYLIGHT, slopeEv: 1.5, towardDeg: 180 },
  };
  const { field, truth } = photographSet(set);
  const share = truth.spill!(0.5, 0.5)[1] / field(0.5, 0.5)[1];
  let blank: FrameReport;
  beforeAll(async () => {
    blank = await read(set, SETUP);
  });

  test('is not told of the blank frame alone', () => {
    console.log(`measured: the blank frame alone: ${told(blank).join(', ')}`);
    expect(blank.set!.isSpillTold).toBe(false);
    expect(blank.reading.findings.map(({ kind }) => kind)).not.toContain('stray-light');
  });

  test('is told to a twentieth of itself with one that has the lights off', async () => {
    const both = judged(blank, await second(lampOffSet(set), { kind: 'lamp-off' }));
    const found = both.set!.spill.share;
    console.log(
      `measured: spill ${found.value.toFixed(4)} ± ${found.plusMinus.toFixed(4)} of the light (truth ${share.toFixed(4)}; the blank frame alone: ${blank.set!.spill.share.value.toFixed(4)} ± ${blank.set!.spill.share.plusMinus.toFixed(4)}); ${told(both).join(', ')}`,
    );
    expectWithin(found.value / share, 1, 0.05);
    expectWithin(found.value, share, found.plusMinus);
    expect(both.set!.isSpillTold).toBe(true);
  });

  test('stays told where the light was slid and exposed anew, by the frame with the lights off from before', async () => {
    const right = -0.25;
    const next: StudioSet = {
      ...set,
      lamps: [plainLamp({ distanceMm: 1000, xMm: 60 + right * WIDTH_MM })],
      exposure: { peak: 0.5 },
    };
    const { field, truth } = photographSet(next);
    const share = truth.spill!(0.5, 0.5)[1] / field(0.5, 0.5)[1];
    // as the files would say it
    const exposedAs = (report: FrameReport, of: StudioSet) => ({
      ...report.samples,
      exposureEv: Math.log2(photographSet(of).truth.exposureFactor),
    });
    const dark = await second(lampOffSet(set), { kind: 'lamp-off' });
    const room = { ...dark, samples: exposedAs({ ...blank, samples: dark.samples }, set) };
    const slide: Move = {
      ...{ kind: 'slide-lamp', lamp: 0, rightMm: right * WIDTH_MM, downMm: 0 },
      ...{ rightFrameWidths: right, downFrameWidths: 0, bringsEv: null, toward: null, caution: null },
    };
    const first = judged(blank, dark);
    const before = { samples: first.samples, setup: SETUP, found: first.set!.found, done: [slide] };
    const after = await read(next, SETUP);
    const seen = { ...after, samples: exposedAs(after, next) };
    const options = { setup: SETUP, tolerance: DEFAULT_TOLERANCE, earlierTakes: [before] };
    const without = rejudge(seen, options).set!;
    const both = rejudge(seen, { ...options, secondFrames: [room] }).set!;
    const say = ({ value, plusMinus }: Estimate) => `${value.toFixed(4)} ± ${plusMinus.toFixed(4)}`;
    console.log(
      `measured: after a slide, spill ${say(both.spill.share)} of the light with the frame from before, ${say(without.spill.share)} without it (truth ${share.toFixed(4)})`,
    );
    expect([without.isSpillTold, both.isSpillTold]).toEqual([false, true]);
    expect([without.isTakenApart, both.isTakenApart]).toEqual([false, false]);
    expectWithin(both.spill.share.value / share, 1, 0.05);
    expectWithin(both.spill.share.value, share, both.spill.share.plusMinus);
    expect(both.spill.share.plusMinus).toBeLessThan(0.5 * without.spill.share.plusMinus);
  });
});

describe('a lens that takes 0.4 stop in the corners, over a light that falls off', () => {
  const set: StudioSet = {
    ...WALL,
    lamps: [plainLamp({ distanceMm: 700, xMm: 40 })],
    lens: { naturalFall: true, mechanicalEv: 0.4 },
  };
  const setup = { ...SETUP, lampDistanceMm: [700] };
  const corner = -Math.log2(photographSet(set).truth.lensShare(1, 1));
  let blank: FrameReport;
  beforeAll(async () => {
    blank = await read(set, setup);
  });
  const says = (report: FrameReport) => {
    const { value, plusMinus } = report.set!.lensCornerEv;
    return `corners ${value.toFixed(3)} ± ${plusMinus.toFixed(3)} EV (truth ${corner.toFixed(3)}); ${told(report).join(', ')}`;
  };

  test('is known to 0.05 EV with the camera slid', async () => {
    console.log(`measured: the blank frame alone: ${says(blank)}`);
    const role = { kind: 'shifted', rightFrameWidths: 1 / 3, downFrameWidths: 0 } as const;
    const slid = await second(slidSet(set, 1 / 3), role);
    const both = judged(blank, slid);
    console.log(`measured: with the camera slid: ${says(both)}`);
    const { value, plusMinus } = both.set!.lensCornerEv;
    expectWithin(value, corner, 0.05);
    expect(plusMinus).toBeLessThan(0.5 * blank.set!.lensCornerEv.plusMinus);
    // its level does not count: opened or closed by two stops it tells the same
    const { levelEv } = slid.samples;
    const darker = judged(blank, { role, samples: { ...slid.samples, levelEv: levelEv - 2 } });
    expectWithin(darker.set!.lensCornerEv.value, value, 0.01);
  });

  test('shows what its barrel takes with the lens stopped down', async () => {
    const role = { kind: 'stopped-down', stops: 2 } as const;
    const stopped = await second(stoppedDownSet(set), role);
    const report = judged(blank, stopped);
    expect(report.reading.findings.map(({ kind }) => kind)).toContain('lens-falloff');
    const { mired, duv } = blank.reading.cast;
    const cast = { mired: mired!, duv: duv! };
    const model = setModel(setup, HEIGHT_PX / WIDTH_PX, cast);
    const families = [{ model, starts: startingPoints(model, blank.samples, cast), rarer: 0 }];
    const barrel = (frames: readonly SecondFrame[]) =>
      estimateOf(
        likelySets(fitSet(families, seenFrames(blank.samples, frames)), 48).map(({ lens }) => lens!.fourthEv),
      );
    const [alone, both] = [barrel([]), barrel([stopped])];
    console.log(
      `measured: the barrel takes ${both.value.toFixed(3)} ± ${both.plusMinus.toFixed(3)} EV (truth 0.4; the blank frame alone: ${alone.value.toFixed(3)} ± ${alone.plusMinus.toFixed(3)}); ${says(report)}`,
    );
    expectWithin(both.value, 0.4, 0.03);
    expect(both.plusMinus).toBeLessThan(0.5 * alone.plusMinus);
  });
});
