import { expect, test } from 'vitest';
import { causeShares } from '../../../src/engine/lamps/cause-shares.ts';
import { type FittedSet, fitSet } from '../../../src/engine/lamps/fit-set.ts';
import { likelySets } from '../../../src/engine/lamps/likely-sets.ts';
import { seenFrames } from '../../../src/engine/lamps/seen-frames.ts';
import { choleskySolve } from '../../../src/engine/numeric/cholesky-solve.ts';
import { type Setup, UNKNOWN_SETUP } from '../../../src/engine/setup.ts';
import { expectWithin } from '../../expect-within.ts';
import { photographSet } from '../../synthetic/studio/photograph-set.ts';
import { plainLamp, type StudioLamp, type StudioSet } from '../../synthetic/studio/studio-set.ts';
import { familyOf } from './family-of.ts';
import { samplesOfField } from './samples-of-field.ts';

const WIDTH_MM = 600;
const ASPECT = 2 / 3;

function studio(lamps: readonly StudioLamp[], changes: Partial<StudioSet> = {}): StudioSet {
  return {
    frameWidthMm: WIDTH_MM,
    frameHeightMm: WIDTH_MM * ASPECT,
    cameraDistanceMm: 1500,
    background: { kind: 'wall' },
    lamps,
    spill: null,
    lens: { naturalFall: true, mechanicalEv: 0 },
    whiteBalance: { kind: 'daylight', kelvin: 5500 },
    exposure: { peak: 0.8 },
    ...changes,
  };
}

function entered(set: StudioSet, arrangement: Setup['arrangement']): Setup {
  const { face } = set.lamps[0]!;
  return {
    ...UNKNOWN_SETUP,
    arrangement,
    frameWidthMm: WIDTH_MM,
    cameraDistanceMm: set.cameraDistanceMm,
    lampDistanceMm: set.lamps.map(({ distanceMm }) => distanceMm),
    lampWidthMm: face.kind === 'disc' ? face.diameterMm : face.widthMm,
  };
}

function fitted(
  set: StudioSet,
  arrangement: Setup['arrangement'],
  setup = entered(set, arrangement),
): FittedSet {
  const samples = samplesOfField(photographSet(set).field, ASPECT, 0.001);
  return fitSet([familyOf(samples, setup)], seenFrames(samples, []));
}

const edgeSpots = () => {
  const [x, y]: [number[], number[]] = [[], []];
  for (let i = 0; i <= 12; i++)
    for (let j = 0; j <= 8; j++) {
      x.push((i / 12 - 0.5) * 0.99);
      y.push((j / 8 - 0.5) * 0.985 * ASPECT);
    }
  return { x: Float64Array.from(x), y: Float64Array.from(y) };
};
const shareOf = (fit: FittedSet, cause: string) =>
  causeShares(likelySets(fit, 48), edgeSpots(), { ev: 0.05, deltaUv: 0.001 }).causes.find(
    (each) => each.cause === cause,
  )!;

/** Spread of a true set over the same spots, in stops. */
function spreadOf(set: StudioSet): number {
  const { field } = photographSet({ ...set, exposure: { factor: 1 } });
  const { x, y } = edgeSpots();
  const levels = Array.from(x, (atX, i) => {
    const [red, green, blue] = field(atX + 0.5, y[i]! / ASPECT + 0.5);
    return Math.log2(0.2126 * red + 0.7152 * green + 0.0722 * blue);
  });
  return Math.max(...levels) - Math.min(...levels);
}

test('finds a light behind a sheet where it stands, and what its place and closeness cost', () => {
  const lamp = plainLamp({ xMm: -150, yMm: 40, distanceMm: 600, face: { kind: 'disc', diameterMm: 180 } });
  const set = studio([lamp], { background: { kind: 'sheet', forwardShare: 0, lobeDeg: 20 } });
  const fit = fitted(set, 'behind-sheet');
  const [light] = fit.set.lights;
  console.log(
    `measured: light ${light!.x.toFixed(3)}, ${light!.y.toFixed(3)} (truth −0.250, 0.067), left over ${fit.leftOver[0]!.ev.toFixed(4)} EV`,
  );
  expectWithin(light!.x, -0.25, 0.03);
  expectWithin(light!.y, 40 / WIDTH_MM, 0.02);
  const centred = { ...lamp, xMm: 0, yMm: 0, aimXMm: 0, aimYMm: 0 };
  expectWithin(shareOf(fit, 'off-centre').ev, spreadOf(set) - spreadOf({ ...set, lamps: [centred] }), 0.05);
  expect(shareOf(fit, 'off-centre').confidence).toBeGreaterThan(0.8);
  expect(shareOf(fit, 'stray-light').confidence).toBeLessThan(0.5);
});

test('finds the share of a sheet that lets light straight through', () => {
  const set = studio([plainLamp({ distanceMm: 900 })], {
    background: { kind: 'sheet', forwardShare: 0.35, lobeDeg: 18 },
  });
  const without = { ...set, background: { kind: 'sheet', forwardShare: 0, lobeDeg: 18 } as const };
  const share = shareOf(fitted(set, 'behind-sheet'), 'hot-spot');
  console.log(`measured: hot spot ${share.ev.toFixed(2)} ± ${share.plusMinusEv.toFixed(2)} EV`);
  expectWithin(share.ev, spreadOf(set) - spreadOf(without), share.plusMinusEv);
  expect(share.confidence).toBeGreaterThan(0.95);
});

test('tells spill by its colour, and what share of the light it is', () => {
  const bare = studio([plainLamp({ distanceMm: 1000 })]);
  const level = photographSet({ ...bare, exposure: { factor: 1 } }).field(0.5, 0.5)[1];
  const spill = {
    level: 0.1 * level,
    colour: { kind: 'planckian', kelvin: 3000 },
    slopeEv: 1,
    towardDeg: 0,
  } as const;
  const fit = fitted({ ...bare, spill }, 'bounced');
  const share = 2 ** fit.set.spill!.levelEv;
  const main = 2 ** fit.set.lights[0]!.strengthEv / fit.set.lights[0]!.distance ** 2;
  console.log(
    `measured: spill ${(share / (share + main)).toFixed(3)} of the light (truth ${(0.1 / 1.1).toFixed(3)})`,
  );
  expectWithin(share / (share + main), 0.1 / 1.1, 0.2 * (0.1 / 1.1));
  expect(shareOf(fit, 'stray-light').confidence).toBeGreaterThan(0.95);
});

test('tells two lights of unequal power and colour apart', () => {
  const side = (xMm: number, changes: Partial<StudioLamp>) =>
    plainLamp({ xMm, aimXMm: 0, distanceMm: 600, ...changes });
  const set = studio([
    side(-540, { power: 1 }),
    side(540, { power: 0.62, colour: { kind: 'daylight', kelvin: 5000 } }),
  ]);
  const fit = fitted(set, 'two-lamps');
  const [left, right] = fit.set.lights;
  const warmer = right!.colour.mired - left!.colour.mired;
  console.log(
    `measured: the right light warmer by ${warmer.toFixed(1)} mired (truth ${(1e6 / 5000 - 1e6 / 5500).toFixed(1)})`,
  );
  expectWithin(warmer, 1e6 / 5000 - 1e6 / 5500, 3);
  const equal = set.lamps.map((lamp) => ({ ...lamp, power: 0.81 }));
  expectWithin(shareOf(fit, 'unequal-lamps').ev, spreadOf(set) - spreadOf({ ...set, lamps: equal }), 0.06);
});

test('knows less where less was entered: an unknown distance widens the ±', () => {
  const set = studio([plainLamp({ xMm: 120, distanceMm: 700 })]);
  const spread = (fit: FittedSet) => {
    const drawn = likelySets(fit, 400).map(({ lights }) => Math.log(lights[0]!.distance));
    const mean = drawn.reduce((sum, value) => sum + value, 0) / drawn.length;
    return Math.sqrt(drawn.reduce((sum, value) => sum + (value - mean) ** 2, 0) / drawn.length);
  };
  const taped = spread(fitted(set, 'bounced'));
  const unknown = spread(fitted(set, 'bounced', { ...UNKNOWN_SETUP, arrangement: 'bounced' }));
  console.log(
    `measured: distance ± ${(196 * taped).toFixed(0)} % taped, ± ${(196 * unknown).toFixed(0)} % unknown`,
  );
  expect(unknown).toBeGreaterThan(1.2 * taped);
});

test('likelySets draws the same sets each time, the best first, spread as the information says', () => {
  const fit = fitted(studio([plainLamp({ xMm: 120, distanceMm: 700 })]), 'bounced');
  const sets = likelySets(fit, 400);
  expect(sets).toHaveLength(400);
  expect(sets[0]).toEqual(fit.set);
  expect(likelySets(fit, 400)[150]).toEqual(sets[150]);
  const [mode] = fit.modes;
  const alone = { ...fit, modes: [{ ...mode!, weight: 1 }] };
  const at = mode!.model.parameters.findIndex(({ name }) => name === 'light 0 level');
  const size = mode!.point.length;
  const unit = new Float64Array(size);
  unit[at] = 1;
  const variance = choleskySolve(mode!.information, unit)[at]!;
  const level = ({ lights: [light] }: (typeof sets)[number]) =>
    light!.strengthEv - 2 * Math.log2(light!.distance);
  const drawn = likelySets(alone, 400).map((set) => level(set) - level(fit.set));
  const found = Math.sqrt(drawn.reduce((sum, ev) => sum + ev * ev, 0) / drawn.length);
  expectWithin(found / (10 * Math.sqrt(variance)), 1, 0.15);
});
