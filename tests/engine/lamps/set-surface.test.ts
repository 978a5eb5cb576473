import { beforeAll, describe, expect, test } from 'vitest';
import { surfaceAtCells } from '../../../src/engine/fits/evaluate-surface.ts';
import { setSurface } from '../../../src/engine/lamps/set-surface.ts';
import { makeProfile } from '../../../src/engine/profile/make-profile.ts';
import { type FrameReport, readFrame, rejudge } from '../../../src/engine/read-frame.ts';
import { UNKNOWN_SETUP } from '../../../src/engine/setup.ts';
import { DEFAULT_TOLERANCE } from '../../../src/engine/tolerances.ts';
import { expectWithin } from '../../expect-within.ts';
import { nodePlatform } from '../../node-platform.ts';
import { movableStudio } from '../../synthetic/random/movable-studio.ts';
import { studioField } from '../../synthetic/studio/studio-field.ts';
import { fileOf } from '../known-frames.ts';

const studio = movableStudio(6, 'behind-sheet');
const options = { setup: studio.setup, tolerance: DEFAULT_TOLERANCE };

describe('setSurface(set, samples, grid)', () => {
  let report: FrameReport;

  beforeAll(async () => {
    const heightPx = Math.round(480 * studio.aspect);
    const bytes = await fileOf(studioField(studio.set).field, '16 bit', 480, heightPx, 6);
    report = await readFrame([{ name: 'blank', bytes }], options, nodePlatform);
  }, 60_000);

  const surface = () => report.surfaces.find(({ name }) => name === 'set')!;

  test('is one of the surfaces of a frame whose set is believed, between the simple ones and the spline', () => {
    expect(report.isSetTrusted).toBe(true);
    expect(report.surfaces.map(({ name }) => name)).toEqual([
      'plane',
      'quadratic',
      'radial',
      'set',
      'spline',
    ]);
  });

  test('follows the frame’s light far closer than a quadratic does', () => {
    const quadratic = report.surfaces.find(({ name }) => name === 'quadratic')!;
    console.log(
      `measured: held out: the set ${surface().heldOutEv.toFixed(4)} EV, the quadratic ${quadratic.heldOutEv.toFixed(4)} EV`,
    );
    expect(surface().heldOutEv).toBeLessThan(quadratic.heldOutEv / 2);
  });

  test('serves a profile as any surface does', () => {
    const { model } = makeProfile(report, { model: 'set' });
    console.log(`measured: a profile by the set leaves ${model.residualSpreadEv.toFixed(4)} EV`);
    expect(model).toMatchObject({ name: 'set' });
    expectWithin(model.residualSpreadEv, 0, 0.02);
  });

  test('tells light in the frame’s own channels, within 0.02 EV of every cell’s', () => {
    const told = surfaceAtCells(surface(), report.grid);
    for (const channel of ['red', 'green', 'blue'] as const)
      told[channel].forEach((value, at) => {
        const measured = report.grid.light[channel][at]!;
        if (!Number.isNaN(measured)) expectWithin(value, Math.log2(measured), 0.02);
      });
  });

  test('goes with the set: judged anew for a set that does not follow the frame, it is gone; judged back, it is as before', () => {
    expect(rejudge(rejudge(report, { ...options, setup: UNKNOWN_SETUP }), options).surfaces).toEqual(
      report.surfaces,
    );
    expect(setSurface({ sets: [], found: [] }, report.samples, report.grid)).toBeNull();
  });
});
