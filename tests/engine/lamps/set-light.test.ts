import { expect, test } from 'vitest';
import { uvPrimeToXy, xyToXyz, xyzToUvPrime } from '../../../src/engine/colour/chromaticity.ts';
import { colourOfWarmth } from '../../../src/engine/colour/colour-of-warmth.ts';
import { warmthFromD65 } from '../../../src/engine/colour/warmth.ts';
import { lensShare } from '../../../src/engine/lamps/lens-share.ts';
import { panelLight } from '../../../src/engine/lamps/panel-light.ts';
import { rimShare } from '../../../src/engine/lamps/rim-share.ts';
import { seenLight } from '../../../src/engine/lamps/seen-light.ts';
import { setLight, setSources } from '../../../src/engine/lamps/set-light.ts';
import { spillLight } from '../../../src/engine/lamps/spill-light.ts';
import { tristimulus } from '../../../src/engine/lamps/tristimulus.ts';
import { expectWithin } from '../../expect-within.ts';
import { lightOf, setOf, WHITE } from './set-of.ts';

const SPOTS = [-0.5, -0.3, 0, 0.2, 0.45].flatMap((x) => [-0.33, 0, 0.25].map((y) => [x, y] as const));

test('a sheet that scatters forward is hottest where the line of sight meets the light', () => {
  const light = lightOf({ x: -0.5, distance: 1, aimX: 0, face: { kind: 'disc', radius: 0.02 } });
  const set = setOf([light], { sheet: { forwardShare: 0.95, lobeRad: 0.06 }, cameraDistance: 2 });
  const seen = seenLight(set, light);
  const along = Array.from({ length: 1001 }, (_, i) => seen(i / 1000 - 0.5, 0));
  // similar triangles: camera 2 before the sheet, light 1 behind it and 0.5 aside
  expectWithin(along.indexOf(Math.max(...along)) / 1000 - 0.5, -0.5 * (2 / 3), 0.02);
});

test('a lobe keeps the light: averaged over every direction of the camera it is that of an even sheet', () => {
  const light = lightOf({ face: { kind: 'disc', radius: 0 } });
  const lobeRad = 0.2;
  // all directions round the straight one, through the middle; π times the mean over the sphere per steradian
  let sum = 0;
  const steps = 4000;
  for (let i = 0; i < steps; i++) {
    const cosine = 1 - (i + 0.5) / steps; // the hemisphere before the sheet; what is sent back of so narrow a lobe is nil
    const cameraDistance = 3;
    const tangent = Math.sqrt(1 - cosine * cosine) / cosine;
    const set = setOf([{ ...light, x: tangent, aimX: tangent }], {
      sheet: { forwardShare: 1, lobeRad },
      cameraDistance,
    });
    const even = seenLight({ ...set, sheet: null }, set.lights[0]!)(0, 0);
    sum += (2 * Math.PI * (seenLight(set, set.lights[0]!)(0, 0) / even)) / Math.PI / steps;
  }
  expectWithin(sum, 1, 0.002);
});

test('a mixture of two lights lies on the line between their chromaticities', () => {
  const set = setOf([lightOf({ x: -0.4 }), lightOf({ x: 0.4, colour: { mired: 60, duv: 0.003 } })]);
  const light = setLight(set);
  const [cool, warm] = setSources(set).map(({ colour }) => xyzToUvPrime(...tristimulus(colour)));
  let last = -1;
  for (let x = -0.5; x <= 0.5; x += 0.1) {
    const { uPrime, vPrime } = xyzToUvPrime(...light(x, 0.1));
    const along = (uPrime - cool!.uPrime) / (warm!.uPrime - cool!.uPrime);
    expectWithin(vPrime, cool!.vPrime + along * (warm!.vPrime - cool!.vPrime), 1e-9);
    expect(along).toBeGreaterThan(last); // the warm light stands right
    last = along;
  }
  expect(last).toBeLessThan(1);
});

test('sources add up to the set, with the lens over all of them', () => {
  const set = setOf([lightOf({ x: 0.2 })], {
    spill: { levelEv: -4, rightEv: 1, downEv: 0, colour: { mired: 100, duv: 0 } },
    lens: { squareEv: 0.2, fourthEv: 0.1, corner: WHITE },
  });
  const light = setLight(set);
  const share = lensShare(set.lens!, set.aspect);
  for (const [x, y] of SPOTS) {
    const sum = setSources(set).reduce(
      (total, { level, colour }) => total + level()(x, y) * tristimulus(colour)[1],
      0,
    );
    expectWithin(light(x, y)[1], sum * share(x, y), 1e-15);
  }
});

test('a lens takes in the corner what its two parts say, and nothing in the middle', () => {
  const share = lensShare({ squareEv: 0.2, fourthEv: 0.1 }, 2 / 3);
  expectWithin(Math.log2(share(0.5, -1 / 3)), -0.3, 1e-12);
  expect(share(0, 0)).toBe(1);
  expectWithin(Math.log2(share(0.25, 1 / 6)), -(0.2 / 4 + 0.1 / 16), 1e-12);
});

test('spill slopes by its stops per frame width', () => {
  const spill = spillLight({ levelEv: -3, rightEv: 0.5, downEv: -1, colour: WHITE });
  expectWithin(Math.log2(spill(0, 0)), -3, 1e-12);
  expectWithin(Math.log2(spill(0.5, 0.2)), -3 + 0.25 - 0.2, 1e-12);
});

test('a panel rises to its edges and ends there', () => {
  const panel = panelLight({
    levelEv: 1,
    acrossEv: 0.4,
    downEv: 0,
    rightEv: 0,
    bottomEv: 0.2,
    x: 0,
    y: 0,
    halfWidth: 0.45,
    halfHeight: 0.5,
    colour: WHITE,
  });
  expectWithin(Math.log2(panel(0, 0)), 1, 1e-12);
  expectWithin(Math.log2(panel(0.3, 0)), 1 + 0.4 * (0.3 / 0.45) ** 2, 1e-12);
  expectWithin(Math.log2(panel(0, 0.5)), 1.1, 1e-12);
  expect(panel(0.451, 0)).toBe(0);
});

test('a rim takes its loss where it reaches in, half of it at its edge, and nothing well inside', () => {
  const rim = { left: 0.1, right: -0.2, top: -0.2, bottom: -0.2, lossEv: 2, soft: 0.02 };
  const share = rimShare(rim, 2 / 3);
  expectWithin(Math.log2(share(-0.45, 0)), -2, 1e-3);
  expectWithin(share(-0.4, 0), 1 - 0.5 * (1 - 2 ** -2), 1e-9);
  expectWithin(share(0.1, 0.1), 1, 1e-9);
});

test('a surface tinted on one side multiplies the light by its colour, half of it in the middle', () => {
  const tint = {
    x: 0,
    y: 0,
    rightMired: -20,
    downMired: 0,
    duvPerMired: 0.0001,
    lossEvPerMired: 0.005,
    soft: 0.3,
  };
  const light = setLight(setOf([lightOf({ distance: 50 })], { tint }));
  const ratio = (x: number) => light(x, 0).map((value, i) => Math.log(value / light(0, 0)[i]!));
  // the light falls off alike to both sides, so that only the tint is left between them
  const reached = 1 / (1 + Math.exp((-4 * 0.5) / 0.3)) - 0.5;
  const full = xyToXyz(uvPrimeToXy(colourOfWarmth(20, 0.002)));
  const white = xyToXyz(uvPrimeToXy(colourOfWarmth(0, 0)));
  const [left, right] = [ratio(-0.5), ratio(0.5)];
  const [x, y, z] = left.map((value, i) => value - right[i]!);
  expectWithin(x! - y!, 2 * reached * Math.log(full[0] / white[0]), 1e-9);
  expectWithin(z! - y!, 2 * reached * Math.log(full[2] / white[2]), 1e-9);
  expectWithin(y! / Math.LN2, -2 * reached * 20 * 0.005, 1e-9);
  const { uPrime, vPrime } = xyzToUvPrime(...light(0, 0));
  expectWithin(warmthFromD65(uPrime, vPrime)!.mired, 0, 1e-6);
});
