import { beforeAll, describe, expect, test } from 'vitest';
import { correctLight } from '../../../src/engine/correct/correct-light.ts';
import { quantile } from '../../../src/engine/numeric/quantile.ts';
import type { Profile } from '../../../src/engine/profile/profile.ts';
import { expectWithin } from '../../expect-within.ts';
import type { SubjectScene } from '../../synthetic/subject-scene.ts';
import { blockDifferences } from './block-differences.ts';
import { HEIGHT_PX, SCENES, type SceneName, WIDTH_PX } from './scenes.ts';
import { blankOf, levelAimedAt, lightOf, perfectly, profileOfBlank, shoot, srgbOut } from './shot-scene.ts';

const OUT = srgbOut(16);

let profile: Profile;
beforeAll(async () => {
  profile = await profileOfBlank(blankOf(SCENES.empty));
}, 60_000);

/** How far a correction of the background alone is from the perfect one, in CIEDE2000 of 8 × 8 means. */
function correctedScene(name: SceneName) {
  const scene: SubjectScene = SCENES[name];
  const shot = shoot(scene);
  const result = correctLight(shot.frame, profile, { treat: 'background-only', blank: shot.blank }, OUT);
  const corrected = lightOf(result.samples, OUT);
  const x = (pixel: number) => (pixel % WIDTH_PX) + 0.5 + (scene.shiftPx?.right ?? 0);
  const y = (pixel: number) => Math.floor(pixel / WIDTH_PX) + 0.5 + (scene.shiftPx?.down ?? 0);
  const distance = Float64Array.from({ length: WIDTH_PX * HEIGHT_PX }, (_, pixel) =>
    Math.min(
      Number.POSITIVE_INFINITY,
      ...scene.subjects.map((subject) => subject.distancePx(x(pixel), y(pixel))),
    ),
  );
  const isOpen = (pixel: number) =>
    distance[pixel]! > 20 && (scene.shadow?.(x(pixel), y(pixel)) ?? 1) > 0.9995 && !scene.texture;
  const level = levelAimedAt(shot, corrected, scene.texture ? (pixel) => distance[pixel]! > 20 : isOpen);
  const perfect = perfectly(shot, level);
  const source = lightOf(Uint16Array.from(shot.frame.samples), OUT);
  return {
    result,
    inside: blockDifferences(corrected, source, WIDTH_PX, (pixel) => distance[pixel]! < -4, 'all'),
    ring: blockDifferences(corrected, perfect, WIDTH_PX, (pixel) => Math.abs(distance[pixel]!) <= 8, 'any'),
    outside: blockDifferences(corrected, perfect, WIDTH_PX, (pixel) => distance[pixel]! > 8, 'all'),
  };
}

function figures({ inside, ring, outside }: ReturnType<typeof correctedScene>): string {
  const of = (values: number[]) =>
    values.length === 0
      ? 'none'
      : `99 % within ${quantile(values, 0.99).toFixed(3)}, worst ${Math.max(...values).toFixed(3)}`;
  return `inside ${of(inside)}; ring ${of(ring)}; background ${of(outside)} (CIEDE2000 of 8 × 8 means)`;
}

describe('an opaque subject keeps its light, and has no halo', () => {
  for (const name of ['opaque tumbler with a handle', 'bright opaque box'] as const) {
    test(name, () => {
      const scene = correctedScene(name);
      console.log(`measured: ${name}: ${figures(scene)}`);
      expect(quantile(scene.inside, 0.99)).toBeLessThanOrEqual(0.3);
      expect(Math.max(...scene.ring)).toBeLessThanOrEqual(0.7);
    });
  }
});

describe('what is hard to tell from background', () => {
  for (const [name, inside, ring] of [
    ['empty', 0.3, 0.7],
    ['white box 0.045 EV below the background', 0.3, 0.7],
    ['soft shadow', 0.3, 0.7],
    ['camera bumped by a pixel', 0.3, 0.7],
    ['bumped by part of a pixel', 0.3, 0.7],
    ['glass that bends light', 0.3, 0.7],
    ['flat filters', 0.3, 0.7],
  ] as const) {
    test(name, () => {
      const scene = correctedScene(name);
      console.log(`measured: ${name}: ${figures(scene)}; ${aroundIt(scene)}`);
      // quantile of no blocks is NaN, and nothing is beyond it
      expect(quantile(scene.inside, 0.99) > inside).toBe(false);
      expect(Math.max(...scene.ring)).toBeLessThanOrEqual(ring);
      expect(quantile(scene.outside, 0.99)).toBeLessThanOrEqual(0.3);
      const shift = scene.result.matte!.shiftPx;
      const truth = (SCENES[name] as SubjectScene).shiftPx;
      if (!truth) return;
      expectWithin(shift!.right, truth.right, 0.1);
      expectWithin(shift!.down, truth.down, 0.1);
    });
  }
});

test('a white thing whose light crosses that of the background is lost there: what is left of it is told', () => {
  const scene = correctedScene('white box that the background crosses in level');
  console.log(`measured: white box crossed in level: ${figures(scene)}; ${aroundIt(scene)}`);
  // where nothing sets it apart nothing can; around it all must be right
  expect(quantile(scene.outside, 0.99)).toBeLessThanOrEqual(0.3);
});

function aroundIt({ result }: ReturnType<typeof correctedScene>): string {
  const { right, down } = result.matte?.shiftPx ?? { right: Number.NaN, down: Number.NaN };
  const { before, after } = result.background!;
  return `shift ${right.toFixed(2)}, ${down.toFixed(2)} px; background ${before.spreadEv.toFixed(3)} EV, ${before.deltaUv.toFixed(4)} u′v′ to ${after.spreadEv.toFixed(4)} EV, ${after.deltaUv.toFixed(5)} u′v′ over ${after.blocks} blocks`;
}
