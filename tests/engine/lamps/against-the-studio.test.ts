import { expect, test } from 'vitest';
import { xyzToUvPrime } from '../../../src/engine/colour/chromaticity.ts';
import { warmthFromD65 } from '../../../src/engine/colour/warmth.ts';
import type { LitSet, SetLight } from '../../../src/engine/lamps/lit-set.ts';
import { setLight } from '../../../src/engine/lamps/set-light.ts';
import { photographSet } from '../../synthetic/studio/photograph-set.ts';
import { plainLamp, type StudioSet } from '../../synthetic/studio/studio-set.ts';
import { lightOf, setOf, WHITE } from './set-of.ts';

/*
 * The studio of the tests sums rays by other rules, scatters by another lobe and knows nothing of this model. Where
 * both describe one set they must agree.
 */

const WIDTH_MM = 600;
const STUDIO: StudioSet = {
  frameWidthMm: WIDTH_MM,
  frameHeightMm: 400,
  cameraDistanceMm: 1500,
  background: { kind: 'wall' },
  lamps: [],
  spill: null,
  lens: null,
  whiteBalance: { kind: 'daylight', kelvin: 6504 },
  exposure: { peak: 0.8 },
};

/** Luminance of linear sRGB (IEC 61966-2-1). */
const luminance = ([red, green, blue]: readonly number[]) => 0.2126 * red! + 0.7152 * green! + 0.0722 * blue!;

/** The largest difference of both falloffs over the frame, their levels made alike in the mean, in stops. */
function difference(studio: StudioSet, set: LitSet): number {
  const { field } = photographSet(studio);
  const light = setLight(set);
  const off: number[] = [];
  for (let i = 0; i <= 12; i++)
    for (let j = 0; j <= 8; j++) {
      const model = light(i / 12 - 0.5, (j / 8 - 0.5) * set.aspect)[1];
      off.push(Math.log2(model / luminance(field(i / 12, j / 8))));
    }
  const mean = off.reduce((sum, each) => sum + each, 0) / off.length;
  return Math.max(...off.map((each) => Math.abs(each - mean)));
}

const lamp = (mm: Partial<ReturnType<typeof plainLamp>>, changes: Partial<SetLight>) =>
  [plainLamp(mm), lightOf(changes)] as const;
const mm = (widths: number) => widths * WIDTH_MM;

test.each([
  ['far and small', 0.1, 1.6, 0.05, 0.0005],
  ['off centre', -0.4, 1, 0.15, 0.0005],
  ['close and large', 0.2, 0.5, 0.3, 0.002],
] as const)('a wall lit by a light %s falls off alike', (_, x, distance, radius, within) => {
  const face = { kind: 'disc', diameterMm: 2 * mm(radius) } as const;
  const [studio, model] = lamp(
    { xMm: mm(x), yMm: mm(-0.1), distanceMm: mm(distance), face, aimXMm: mm(0.1), aimYMm: 0 },
    { x, y: -0.1, distance, face: { kind: 'disc', radius }, aimX: 0.1, aimY: 0, beamPower: 2 },
  );
  const off = difference({ ...STUDIO, lamps: [studio] }, setOf([model], { cameraDistance: 2.5 }));
  console.log(`measured: model against rays, ${_}: ${off.toFixed(5)} EV at most`);
  expect(off).toBeLessThan(within);
});

test('a tilted rectangle falls off alike', () => {
  const [studio, model] = lamp(
    {
      xMm: mm(-0.5),
      distanceMm: mm(0.8),
      aimXMm: mm(0.3),
      face: { kind: 'rectangle', widthMm: mm(0.4), heightMm: mm(0.3) },
    },
    { x: -0.5, distance: 0.8, aimX: 0.3, beamPower: 2, face: { kind: 'rectangle', width: 0.4, height: 0.3 } },
  );
  const off = difference({ ...STUDIO, lamps: [studio] }, setOf([model]));
  console.log(`measured: model against rays, tilted rectangle: ${off.toFixed(5)} EV at most`);
  expect(off).toBeLessThan(0.002);
});

test('a sheet that scatters forward looks alike: two lobes of the same spread differ by little', () => {
  const [studio, model] = lamp(
    { xMm: mm(0.2), distanceMm: mm(1), face: { kind: 'disc', diameterMm: mm(0.3) } },
    { x: 0.2, aimX: 0.2, distance: 1, beamPower: 2, face: { kind: 'disc', radius: 0.15 } },
  );
  const lobeDeg = 20;
  const off = difference(
    { ...STUDIO, lamps: [studio], background: { kind: 'sheet', forwardShare: 0.4, lobeDeg } },
    setOf([model], { cameraDistance: 2.5, sheet: { forwardShare: 0.4, lobeRad: (lobeDeg * Math.PI) / 180 } }),
  );
  console.log(`measured: model against rays, thin sheet: ${off.toFixed(4)} EV at most`);
  expect(off).toBeLessThan(0.03);
});

test('spill, its slope and its colour mix in alike', () => {
  const colour = { kind: 'planckian', kelvin: 3000 } as const;
  const [studio, model] = lamp(
    { xMm: 0, distanceMm: mm(1), colour: { kind: 'daylight', kelvin: 6504 } },
    { distance: 1, beamPower: 2, face: { kind: 'disc', radius: 0.15 } },
  );
  // the studio's light is that of a metre off, the model's that of a frame width off
  const inWidths = (1000 / WIDTH_MM) ** 2;
  const spilled: StudioSet = {
    ...STUDIO,
    lamps: [studio],
    spill: { level: 0.3 * inWidths, colour, slopeEv: 1, towardDeg: 0 },
  };
  const bare = photographSet({ ...spilled, lamps: [], exposure: { factor: 1 } }).field(0.5, 0.5);
  const [red, green, blue] = bare;
  const { uPrime, vPrime } = xyzToUvPrime(
    0.4124 * red + 0.3576 * green + 0.1805 * blue,
    0.2126 * red + 0.7152 * green + 0.0722 * blue,
    0.0193 * red + 0.1192 * green + 0.9505 * blue,
  );
  const warmth = warmthFromD65(uPrime, vPrime)!;
  const set = setOf([model], {
    spill: { levelEv: Math.log2(0.3), rightEv: 1, downEv: 0, colour: warmth },
  });
  const off = difference(spilled, set);
  console.log(`measured: model against rays, sloping spill: ${off.toFixed(4)} EV at most`);
  expect(off).toBeLessThan(0.003);
});

test('a lens that loses as cos⁴ is nearly the r² part alone', () => {
  const [studio, model] = lamp(
    { xMm: 0, distanceMm: mm(1.2) },
    { distance: 1.2, beamPower: 2, face: { kind: 'disc', radius: 0.15 } },
  );
  const corner = Math.hypot(0.5, 1 / 3) / 2.5;
  const set = setOf([model], {
    lens: { squareEv: 2 * Math.log2(1 + corner ** 2), fourthEv: 0, corner: WHITE },
  });
  const off = difference({ ...STUDIO, lamps: [studio], lens: { naturalFall: true, mechanicalEv: 0 } }, set);
  console.log(`measured: model against rays, natural fall of a lens: ${off.toFixed(4)} EV at most`);
  expect(off).toBeLessThan(0.003);
});
