import { expect, test } from 'vitest';
import { chooseSurface } from '../../../src/engine/fits/choose-surface.ts';
import { evaluateSurface } from '../../../src/engine/fits/evaluate-surface.ts';
import { fitSurfaces } from '../../../src/engine/fits/fit-surfaces.ts';
import { expectWithin } from '../../expect-within.ts';
import { gridOfLight } from './grid-of-light.ts';

test('fitSurfaces(grid) recovers a plane of known rise from a noisy grid, and chooseSurface takes it', () => {
  const grid = gridOfLight((x, y) => [-1 + 0.5 * x, -1 + 0.5 * x - 0.2 * y, -1.2], { noiseEv: 0.003 });
  const { chosen } = chooseSurface(fitSurfaces(grid));
  expect(chosen.name).toBe('plane');
  const light = evaluateSurface(chosen, 0.9, 0.2);
  expectWithin(light.red, -1 + 0.45, 0.0005);
  expectWithin(light.green, -1 + 0.45 - 0.04, 0.0005);
  expectWithin(light.blue, -1.2, 0.0005);
});
