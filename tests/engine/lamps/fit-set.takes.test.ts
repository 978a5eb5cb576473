import { describe, expect, test } from 'vitest';
import { carriedStart } from '../../../src/engine/lamps/carried-start.ts';
import { type EarlierTake, slipCount } from '../../../src/engine/lamps/earlier-take.ts';
import { type Estimate, estimateOf } from '../../../src/engine/lamps/estimate.ts';
import { fitSet } from '../../../src/engine/lamps/fit-set.ts';
import { NO_CHANGE, NOTHING_CHANGED, type SetChange } from '../../../src/engine/lamps/light-change.ts';
import { likelySets } from '../../../src/engine/lamps/likely-sets.ts';
import type { SetLight } from '../../../src/engine/lamps/lit-set.ts';
import { seenFrames } from '../../../src/engine/lamps/seen-frames.ts';
import type { SetSamples } from '../../../src/engine/lamps/set-samples.ts';
import { type Setup, UNKNOWN_SETUP } from '../../../src/engine/setup.ts';
import { expectWithin } from '../../expect-within.ts';
import { EVEN_SET } from '../../synthetic/studio/even-set.ts';
import { photographSet } from '../../synthetic/studio/photograph-set.ts';
import { plainLamp, type StudioLamp, type StudioSet } from '../../synthetic/studio/studio-set.ts';
import { familyOf } from './family-of.ts';
import { samplesOfField } from './samples-of-field.ts';

const WIDTH_MM = EVEN_SET.frameWidthMm;
const ASPECT = EVEN_SET.frameHeightMm / WIDTH_MM;
const SETUP: Setup = { ...UNKNOWN_SETUP, arrangement: 'bounced', frameWidthMm: WIDTH_MM };

/** One take of a wall lit by one light; `seed` of its noise. */
function takeOf(lamp: StudioLamp, seed: number): SetSamples {
  const set: StudioSet = {
    ...EVEN_SET,
    ...{ background: { kind: 'wall' }, lamps: [lamp], exposure: { peak: 0.8 } },
    lens: { naturalFall: true, mechanicalEv: 0 },
  };
  return samplesOfField(photographSet(set).field, ASPECT, 0.001, seed);
}

/** Fits a take with those before it, as a reading does. */
function fitted(samples: SetSamples, takes: readonly EarlierTake[] = []) {
  const family = familyOf(samples, SETUP, slipCount(takes));
  const last = takes.at(-1);
  const carried =
    last === undefined ? [] : last.found.map((found) => carriedStart(family.model, found, last.change));
  const fit = fitSet([{ ...family, carried }], seenFrames(samples, [], takes, WIDTH_MM));
  const drawn = likelySets(fit, 200);
  const found = fit.modes.map(({ model: { parameters, setAt }, point }) => ({
    set: setAt(point),
    figures: Object.fromEntries(parameters.map(({ name }, i) => [name, point[i]!])),
  }));
  const figure = (of: (light: SetLight) => number) => estimateOf(drawn.map(({ lights }) => of(lights[0]!)));
  return { fit, found, distance: figure((light) => Math.log(light.distance)), right: figure(({ x }) => x) };
}

const LAMP = plainLamp({ xMm: 180, yMm: -60, distanceMm: 900 });

const truth = Math.log(900 / WIDTH_MM);

describe('two takes of one set, the light slid between them', () => {
  const told = -0.5; // frame widths
  const change: SetChange = { ...NOTHING_CHANGED, lights: [{ ...NO_CHANGE, right: told }] };
  const before = takeOf(LAMP, 1);
  const { found } = fitted(before);
  const takes: readonly EarlierTake[] = [{ samples: before, change, found }];
  const slidBy = (widths: number) =>
    plainLamp({ ...LAMP, xMm: LAMP.xMm + widths * WIDTH_MM, aimXMm: LAMP.xMm + widths * WIDTH_MM });
  const say = ({ value, plusMinus }: Estimate, of: number) =>
    `off by ${(value - of).toFixed(3)} ± ${plusMinus.toFixed(3)}`;

  test.each([
    ['as told', told],
    ['farther by what hands miss', 1.05 * told - 5 / WIDTH_MM],
  ])('tell far more surely where it stands than the last alone: slid %s', (_, widths) => {
    const now = takeOf(slidBy(widths), 2);
    const [alone, both] = [fitted(now), fitted(now, takes)];
    const right = LAMP.xMm / WIDTH_MM + widths;
    console.log(
      `measured: ${_}: right ${say(alone.right, right)} from one take, ${say(both.right, right)} from two; distance (log) ${say(alone.distance, truth)}, ${say(both.distance, truth)}`,
    );
    expectWithin(both.right.value, right, both.right.plusMinus);
    expectWithin(both.distance.value, truth, both.distance.plusMinus);
    expect(both.distance.plusMinus).toBeLessThan(0.65 * alone.distance.plusMinus);
    expect(both.right.plusMinus).toBeLessThan(0.75 * alone.right.plusMinus);
    // both takes are borne out, the earlier one too
    for (const { ev } of both.fit.leftOver) expect(ev).toBeLessThan(0.003);
  });

  test('tell as much where white balance was set anew between them', () => {
    const now = takeOf(slidBy(told), 2);
    const right = LAMP.xMm / WIDTH_MM + told;
    const same = fitted(now, takes);
    for (const shift of [0.003, 0.012]) {
      const shifted = {
        ...before,
        uPrime: before.uPrime.map((u) => u + shift / 2),
        vPrime: before.vPrime.map((v) => v + shift),
      };
      const both = fitted(now, [{ samples: shifted, change, found }]);
      expectWithin(both.right.value, right, both.right.plusMinus);
      expectWithin(both.distance.value, truth, both.distance.plusMinus);
      expectWithin(both.right.value, same.right.value, 0.02);
    }
  });

  test('do not go together where it was not slid at all', () => {
    const both = fitted(takeOf(LAMP, 3), takes);
    console.log(
      `measured: left over where nothing was done: ${both.fit.leftOver.map(({ ev }) => ev.toFixed(4)).join(', ')} EV`,
    );
    expect(Math.max(...both.fit.leftOver.map(({ ev }) => ev))).toBeGreaterThan(0.004);
  });
});
