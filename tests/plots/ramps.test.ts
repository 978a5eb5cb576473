import { expect, test } from 'vitest';
import { cellMap } from '../../src/plots/cell-map.ts';
import { falloffPicture } from '../../src/plots/falloff-picture.ts';
import { tintPicture } from '../../src/plots/tint-picture.ts';
import { expectWithin } from '../expect-within.ts';
import { readingFixture } from './reading-fixture.ts';
import { contrastOf, lightnessOf, luminanceOf, seenAs, VISIONS, type Vision } from './simulated-vision.ts';

/** Steps of a whole ramp, from nothing to the most that it shows. */
const STEPS = 8;
/** The map's lines and labels, #191919. */
const INK = [25, 25, 25];
const LEAST_LINE_CONTRAST = 3; // WCAG 2.2, 1.4.11
const LEAST_LABEL_CONTRAST = 4.5; // WCAG 2.2, 1.4.3
/** What two steps have to lie apart in L* to be told apart, whoever looks. */
const LEAST_STEP = 2;
const DIRECTIONS_DEG = Array.from({ length: 24 }, (_, i) => i * 15);
const ALL_VISIONS = Object.keys(VISIONS) as Vision[];

/** sRGB codes of a ramp's steps. */
type Ramp = readonly (readonly number[])[];

function pixels(rgba: Uint8ClampedArray): Ramp {
  return Array.from({ length: rgba.length / 4 }, (_, i) => [...rgba.slice(i * 4, i * 4 + 3)]);
}

/** From the hottest down to as far as the greys reach, in even steps of stops. */
function greys(deepestEv: number): Ramp {
  const reading = readingFixture({
    columns: STEPS + 1,
    rows: 1,
    ev: (x) => -(deepestEv / STEPS) * (x * (STEPS + 1) - 0.5),
  });
  return pixels(falloffPicture(cellMap(reading.grid, reading.falloff.evMap)).rgba);
}

/** From no tint to the strongest that is drawn, in even steps of u′v′ in one direction. */
function tints(directionDeg: number): Ramp {
  const [du, dv] = [Math.cos((directionDeg * Math.PI) / 180), Math.sin((directionDeg * Math.PI) / 180)];
  const reading = readingFixture({
    columns: STEPS + 1,
    rows: 1,
    tint: (x) => {
      const distance = (0.03 / STEPS) * (x * (STEPS + 1) - 0.5);
      return [distance * du, distance * dv];
    },
  });
  return pixels(tintPicture(reading).rgba);
}

function stepsInLightness(ramp: Ramp, vision: Vision): number[] {
  const lightness = ramp.map((codes) => lightnessOf(luminanceOf(seenAs(vision, codes))));
  return lightness.slice(1).map((each, i) => lightness[i]! - each);
}

function leastContrast(ramp: Ramp, vision: Vision): number {
  const ink = luminanceOf(seenAs(vision, INK));
  return Math.min(...ramp.map((codes) => contrastOf(luminanceOf(seenAs(vision, codes)), ink)));
}

test('the greys of a falloff fall in equal steps of L*, for every vision', () => {
  for (const deepestEv of [0.2, 0.8, 1.7, 2.2, 3.4, 6]) {
    const ramp = greys(deepestEv);
    for (const vision of ALL_VISIONS) {
      const steps = stepsInLightness(ramp, vision);
      const mean = steps.reduce((sum, step) => sum + step, 0) / STEPS;
      for (const step of steps) expectWithin(step, mean, 0.4); // the codes are whole numbers
      expect(Math.min(...steps)).toBeGreaterThan(LEAST_STEP);
    }
  }
});

test('the tints fall in equal steps of L*, in every direction', () => {
  for (const directionDeg of DIRECTIONS_DEG)
    for (const step of stepsInLightness(tints(directionDeg), 'usual')) expectWithin(step, 24 / STEPS, 0.5);
});

test('the tints get darker step by step for protan, deutan and tritan vision too, in every direction', () => {
  for (const vision of ALL_VISIONS) {
    const least = DIRECTIONS_DEG.map((deg) => Math.min(...stepsInLightness(tints(deg), vision)));
    const worst = Math.min(...least);
    console.log(
      `measured: of ${STEPS} steps of tint the least is ${worst.toFixed(2)} in L* for ${vision} vision, ` +
        `towards ${DIRECTIONS_DEG[least.indexOf(worst)]}° in u′v′`,
    );
    expect(worst).toBeGreaterThan(LEAST_STEP);
  }
});

test('lines and labels stand out from every step of every ramp, for every vision', () => {
  const ramps = [0.2, 0.8, 1.7, 2.2, 3.4, 6].map(greys).concat(DIRECTIONS_DEG.map(tints));
  for (const vision of ALL_VISIONS) {
    const least = Math.min(...ramps.map((ramp) => leastContrast(ramp, vision)));
    console.log(
      `measured: lines and labels have a contrast of ${least.toFixed(2)} at least, ${vision} vision`,
    );
    expect(least).toBeGreaterThanOrEqual(LEAST_LABEL_CONTRAST);
    expect(least).toBeGreaterThanOrEqual(LEAST_LINE_CONTRAST);
  }
});

test('the checks themselves see a ramp of hue alone fail, and a line on a grey too dark', () => {
  const hueAlone: Ramp = [
    [150, 119, 119],
    [119, 132, 119],
  ];
  expect(Math.abs(stepsInLightness(hueAlone, 'usual')[0]!)).toBeLessThan(LEAST_STEP);
  expect(leastContrast([[119, 119, 119]], 'usual')).toBeLessThan(LEAST_LABEL_CONTRAST);
});
