import { expect, test } from 'vitest';
import { xyToUvPrime } from '../../src/engine/colour/chromaticity.ts';
import { D65 } from '../../src/engine/colour/white-points.ts';
import type { Tolerance } from '../../src/engine/tolerance.ts';
import { castPlane } from '../../src/plots/cast-plane.ts';
import { whiteLoci } from '../../src/plots/white-loci.ts';
import { expectWithin } from '../expect-within.ts';
import { readingFixture } from './reading-fixture.ts';
import { expectStoredPicture } from './stored-picture.ts';

const D65_UV = xyToUvPrime(D65);

const TOLERANCE: Tolerance = {
  name: '0.3 stop',
  source: 'common practice, no published source',
  measure: 'range',
  limit: 0.3,
  tintDeltaUv: 0.004,
  castDeltaUv: 0.005,
};

function warmReading() {
  const neutral = readingFixture({
    columns: 6,
    rows: 4,
    tint: (x, y) => [0.002 * x + 0.002, 0.002 * y + 0.003],
  });
  return readingFixture(
    { columns: 6, rows: 4, tint: (x, y) => [0.002 * x + 0.002, 0.002 * y + 0.003] },
    {
      cast: {
        ...neutral.cast,
        uPrime: neutral.cast.uPrime + 0.003,
        vPrime: neutral.cast.vPrime + 0.004,
        deltaUPrime: 0.003,
        deltaVPrime: 0.004,
        deltaUv: 0.005,
      },
    },
  );
}

test('castPlane(reading) is at one scale: a cast at the tolerance lies on its circle', () => {
  const plane = castPlane(warmReading(), TOLERANCE, whiteLoci(), 360);
  const [x, y] = plane.cast;
  expectWithin(x, 180 + 3 * plane.unitPerThousandth, 1e-9);
  expectWithin(y, 180 - 4 * plane.unitPerThousandth, 1e-9);
  expectWithin(Math.hypot(x - plane.white[0], y - plane.white[1]), plane.toleranceRadius, 1e-9);
});

test('castPlane(reading) puts warmer up and to the right, greener up and to the left', () => {
  const words = new Map(
    castPlane(warmReading(), TOLERANCE, whiteLoci(), 360).words.map((w) => [w.text, w.at]),
  );
  expect(words.get('warmer')![0]).toBeGreaterThan(180);
  expect(words.get('warmer')![1]).toBeLessThan(180);
  expect(words.get('greener')![0]).toBeLessThan(180);
  expect(words.get('greener')![1]).toBeLessThan(180);
  expect(words.get('cooler')![0]).toBeLessThan(180);
  expect(words.get('more magenta')![1]).toBeGreaterThan(180);
});

test('castPlane(reading) keeps its words outside the square, each within its side', () => {
  for (const { text, at, angleDeg } of castPlane(warmReading(), TOLERANCE, whiteLoci(), 360).words) {
    const [across, along] = angleDeg === 0 ? [at[1], at[0]] : [at[0], at[1]];
    expect(across < -7 || across > 367).toBe(true); // half the height of a letter and some air
    expect(along - text.length * 4).toBeGreaterThanOrEqual(0);
    expect(along + text.length * 4).toBeLessThanOrEqual(360);
  }
});

test('castPlane(reading) draws cells that lie on one another once, and every cell within half a unit', () => {
  const columns = 96;
  const rows = 64;
  const reading = readingFixture({ columns, rows, tint: (x, y) => [0.001 * x, 0.001 * y] });
  const { cloudPath, unitPerThousandth, white } = castPlane(reading, TOLERANCE, whiteLoci(), 340);
  const dots = [...cloudPath.matchAll(/M(-?[\d.]+),(-?[\d.]+)h0\.1/g)].map((dot) => `${dot[1]},${dot[2]}`);
  expect(new Set(dots).size).toBe(dots.length);
  expect(dots.length).toBeLessThan((unitPerThousandth + 2) ** 2);
  expect(dots.length).toBeGreaterThan(unitPerThousandth);
  const [u, v] = [reading.tint.uPrimeMap, reading.tint.vPrimeMap];
  for (let i = 0; i < columns * rows; i++) {
    const x = white[0] + (u[i]! - D65_UV.uPrime) * 1000 * unitPerThousandth;
    const y = white[1] - (v[i]! - D65_UV.vPrime) * 1000 * unitPerThousandth;
    expect(dots).toContain(`${Math.round(x)},${Math.round(y)}`);
  }
});

test('castPlane(reading) draws the stored picture', () => {
  const plane = castPlane(warmReading(), TOLERANCE, whiteLoci(), 360);
  const svg = [
    '<svg xmlns="http://www.w3.org/2000/svg" viewBox="-26 -26 412 412" fill="none" stroke="black">',
    '<title>The cast plane</title>',
    `<circle cx="${plane.white[0]}" cy="${plane.white[1]}" r="${plane.toleranceRadius.toFixed(1)}"/>`,
    `<path d="${plane.planckianPath}"/><path d="${plane.daylightPath}" stroke-dasharray="4 3"/>`,
    `<path d="${plane.cloudPath}" stroke-width="3" stroke-linecap="round" opacity="0.3"/>`,
    `<path d="M${plane.white}L${plane.cast.map((each) => each.toFixed(1))}" stroke-width="2"/>`,
    ...plane.words.map(
      ({ text, at, angleDeg }) =>
        `<text transform="translate(${at.map((each) => each.toFixed(1))}) rotate(${angleDeg})" text-anchor="middle" fill="black" stroke="none">${text}</text>`,
    ),
    '</svg>',
    '',
  ].join('\n');
  expectStoredPicture('cast-plane', svg);
});
