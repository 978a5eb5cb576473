import { beforeAll, describe, expect, test } from 'vitest';
import { type BackgroundLevel, backgroundLevel } from '../../../src/engine/exposure/background-level.ts';
import { codeStops } from '../../../src/engine/exposure/coded-light.ts';
import { type ExposureGoal, exposureChange } from '../../../src/engine/exposure/exposure-goal.ts';
import { inThirds } from '../../../src/engine/exposure/third-stops.ts';
import type { MeasuredFrame } from '../../../src/engine/measure-frame.ts';
import { expectWithin } from '../../expect-within.ts';
import { exposedBy, randomField } from '../../synthetic/known-field.ts';
import { measuredField } from '../aims/aimed-frame.ts';

const levelOf = ({ grid, light }: MeasuredFrame) => backgroundLevel(grid, light);
/** Half a third: what rounding to whole thirds leaves at most. */
const HALF_STEP = 1 / 6 + 0.01;

describe('the change that exposureChange advises, applied to the scene, brings the level that was asked for', () => {
  const { field } = randomField(4, { peak: 0.3, spreadEv: 0.8 });
  let level: BackgroundLevel;
  let coded: MeasuredFrame['grid'];
  beforeAll(async () => {
    const frame = await measuredField(field);
    level = levelOf(frame);
    coded = frame.grid;
  });
  const brought = async (goal: ExposureGoal, round: (stops: number) => number) => {
    const change = exposureChange(goal, level, coded);
    return levelOf(await measuredField(exposedBy(field, round(change.stops!))));
  };
  const exactly = (stops: number) => stops;

  test.each([1, 1 / 3, 3])('its hottest part %d stops below clipping', async (stops) => {
    const goal: ExposureGoal = { kind: 'below-clipping', stops };
    expectWithin((await brought(goal, exactly)).firstEv!, -stops, 0.01);
    expectWithin((await brought(goal, inThirds)).firstEv!, -stops, HALF_STEP);
  });

  test('its mean at a code value', async () => {
    const goal: ExposureGoal = { kind: 'code', code: 100 };
    const wanted = codeStops(coded, 100);
    expectWithin((await brought(goal, exactly)).meanEv!, wanted, 0.01);
    expectWithin((await brought(goal, inThirds)).meanEv!, wanted, HALF_STEP);
  });

  test('its mean a stop over a subject of code 60, by the background’s light alone', async () => {
    const goal: ExposureGoal = { kind: 'over-subject', stops: 1, subject: { kind: 'code', code: 60 } };
    expect(exposureChange(goal, level, coded).isLightAlone).toBe(true);
    expectWithin((await brought(goal, exactly)).meanEv!, codeStops(coded, 60) + 1, 0.01);
  });

  test('or by what a meter says of both', () => {
    const goal: ExposureGoal = {
      kind: 'over-subject',
      stops: 1.5,
      subject: { kind: 'metered', overEv: 0.8 },
    };
    expectWithin(exposureChange(goal, level, coded).stops!, 0.7, 1e-9);
  });

  test('and says by how much the hottest part would then clip', () => {
    const goal: ExposureGoal = { kind: 'code', code: 250 };
    const { stops, clipsByEv } = exposureChange(goal, level, coded);
    expectWithin(clipsByEv!, level.firstEv! + stops!, 1e-9);
    expect(exposureChange({ kind: 'code', code: 60 }, level, coded).clipsByEv).toBeNull();
  });
});

test('of a clipped frame the hottest part is drawn on, and its mean is not told', async () => {
  const { field } = randomField(5, {
    family: 'plane',
    spreadEv: 1.5,
    peak: 1,
    largestCastEv: 0,
    largestTintEv: 0,
  });
  const frame = await measuredField(exposedBy(field, 0.5));
  const level = levelOf(frame);
  const below = exposureChange({ kind: 'below-clipping', stops: 1 }, level, frame.grid);
  expect(below.isEstimate).toBe(true);
  expectWithin(below.stops!, -1.5, 0.1);
  expect(exposureChange({ kind: 'code', code: 200 }, level, frame.grid).stops).toBeNull();
});
