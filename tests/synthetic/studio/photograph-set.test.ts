import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { expectWithin } from '../../expect-within.ts';
import { locusPlace, uvPrimeOfXyz } from '../colour-truth.ts';
import { rgbOfLight, xyzOfLight } from './light-colour.ts';
import { photographSet } from './photograph-set.ts';
import { surfaceSeen } from './seen-light.ts';
import { plainLamp, type StudioSet } from './studio-set.ts';

const daylight = { kind: 'daylight', kelvin: 5500 } as const;
const sheetSet: StudioSet = {
  frameWidthMm: 600,
  frameHeightMm: 400,
  cameraDistanceMm: 900,
  background: { kind: 'sheet', forwardShare: 0.4, lobeDeg: 20 },
  lamps: [plainLamp({ xMm: -90, yMm: 40 })],
  spill: { level: 0.2, colour: { kind: 'planckian', kelvin: 3000 }, slopeEv: 1, towardDeg: 0 },
  lens: { naturalFall: true, mechanicalEv: 0.2 },
  whiteBalance: daylight,
  exposure: { peak: 0.8 },
};

test('photographSet(set) gives a field that its lamps and spill sum to, with the peak asked for', () => {
  const { field, truth } = photographSet(sheetSet);
  let peak = 0;
  for (let i = 0; i <= 64; i++) {
    for (let j = 0; j <= 64; j++) {
      const light = field(i / 64, j / 64);
      peak = Math.max(peak, ...light);
      const parts = [truth.lamps[0]!(i / 64, j / 64), truth.spill!(i / 64, j / 64)];
      light.forEach((value, channel) => {
        expectWithin(parts[0]![channel]! + parts[1]![channel]!, value, 1e-12);
      });
    }
  }
  expectWithin(peak, 0.8, 1e-12);
  const again = photographSet({ ...sheetSet, exposure: { factor: truth.exposureFactor } });
  expectWithin(again.field(0.3, 0.7)[0], field(0.3, 0.7)[0], 1e-12);
});

test('a thin sheet is hottest on the line of sight from the camera to the lamp', () => {
  const { field } = photographSet({
    ...sheetSet,
    background: { kind: 'sheet', forwardShare: 0.95, lobeDeg: 5 },
    lamps: [plainLamp({ xMm: -200, aimXMm: 0, distanceMm: 600, face: { kind: 'disc', diameterMm: 20 } })],
    spill: null,
    lens: null,
  });
  const along = Array.from({ length: 601 }, (_, i) => field(i / 600, 0.5)[1]);
  // similar triangles: camera 900 in front, lamp 600 behind and 200 to the left
  expectWithin(along.indexOf(Math.max(...along)) - 300, -200 * (900 / 1500), 12);
});

test('an even sheet looks like a wall lit from the front', () => {
  const bare = { ...sheetSet, spill: null, lens: null };
  const sheet = photographSet({ ...bare, background: { kind: 'sheet', forwardShare: 0, lobeDeg: 20 } });
  const wall = photographSet({ ...bare, background: { kind: 'wall' } });
  for (const [x, y] of [
    [0.1, 0.2],
    [0.5, 0.5],
    [0.9, 0.4],
  ] as const)
    expectWithin(sheet.field(x, y)[1], wall.field(x, y)[1], 1e-12);
});

test('the lens takes cos⁴ of the angle to its axis and its mechanical loss in the corner', () => {
  const { truth } = photographSet(sheetSet);
  const tangent = Math.hypot(300, 200) / 900;
  expectWithin(Math.log2(truth.lensShare(0, 0)), -2 * Math.log2(1 + tangent ** 2) - 0.2, 1e-9);
  expectWithin(truth.lensShare(0.5, 0.5), 1, 1e-12);
});

test('surfaceSeen(sweep) meets wall, curve and floor where the geometry says', () => {
  const sweep = { kind: 'sweep', curvesAtYMm: 100, radiusMm: 300 } as const;
  const camera = [0, 0, 2000] as const;
  expect(surfaceSeen(sweep, camera, 50, 80)).toEqual({ spot: [50, 80, 0], normal: [0, 0, 1] });
  const curve = surfaceSeen(sweep, camera, 50, 250);
  expectWithin(Math.hypot(curve.spot[1] - 100, curve.spot[2] - 300), 300, 1e-6);
  const floor = surfaceSeen(sweep, camera, 0, 900);
  expectWithin(floor.spot[1], 400, 1e-6);
  expectWithin(floor.spot[2], 2000 * (1 - 400 / 900), 1e-6);
  expect(floor.normal).toEqual([0, -1, 0]);
});

test('xyzOfLight(planckian) gives the published Planckian locus from 2000 to 20 000 K', () => {
  // Planck's law with the CIE 1931 observer, worked out separately
  const table = readFileSync(new URL('../../published/planckian-locus.csv', import.meta.url), 'utf8');
  let [worst, rows] = [0, 0];
  for (const line of table.trim().split('\n').slice(1)) {
    const [kelvin, , , , , uPrime, vPrime] = line.split(',').map(Number);
    if (kelvin! < 2000 || kelvin! > 20_000) continue;
    const [u, v] = uvPrimeOfXyz(xyzOfLight({ kind: 'planckian', kelvin: kelvin! }));
    worst = Math.max(worst, Math.hypot(u - uPrime!, v - vPrime!));
    rows++;
  }
  console.log(`measured: ${rows} black bodies within ${worst.toExponential(1)} in u′v′`);
  expect(rows).toBeGreaterThan(15);
  expect(worst).toBeLessThan(5e-5);
});

test('xyzOfLight(daylight) gives the published chromaticities and duv moves it off the locus', () => {
  const [x, y, z] = xyzOfLight({ kind: 'daylight', kelvin: 5000 });
  expectWithin(x / (x + y + z), 0.345741, 1e-6);
  expectWithin(y / (x + y + z), 0.358666, 1e-6);
  const [u, v] = uvPrimeOfXyz(xyzOfLight({ kind: 'planckian', kelvin: 4000, duv: 0.01 }));
  expectWithin(locusPlace(u, v).duv, 0.01, 1e-5);
  expectWithin(locusPlace(u, v).mired, 250, 0.05);
});

test('rgbOfLight(light, white) is neutral under its own white balance and warm under a cooler one', () => {
  for (const channel of rgbOfLight(daylight, daylight)) expectWithin(channel, 1, 1e-6);
  const [red, green, blue] = rgbOfLight({ kind: 'planckian', kelvin: 3000 }, daylight);
  expect(red > green && green > blue).toBe(true);
});
