import { expect, test } from 'vitest';
import { chooseSurface } from '../../../src/engine/fits/choose-surface.ts';
import { fitSurfaces } from '../../../src/engine/fits/fit-surfaces.ts';
import type { Surface, SurfaceName } from '../../../src/engine/fits/surface.ts';
import { gridOfLight } from './grid-of-light.ts';

function surface(name: SurfaceName, heldOutEv: number, heldOutStandardErrorEv: number): Surface {
  const none = new Float64Array(0);
  return {
    name: name as 'plane',
    terms: 3,
    region: { left: 0, top: 0, right: 1, bottom: 1 },
    heldOutEv,
    heldOutStandardErrorEv,
    red: none,
    green: none,
    blue: none,
  };
}

test('chooseSurface takes the simplest within one standard error of the best', () => {
  const { chosen, because } = chooseSurface([
    surface('plane', 0.05, 0.01),
    surface('quadratic', 0.021, 0.01),
    surface('radial', 0.022, 0.01),
    surface('spline', 0.02, 0.002),
  ]);
  expect(chosen.name).toBe('quadratic');
  expect(because).toBe(
    'The quadratic foretells parts of the frame that it was not fitted to within 0.0210 EV, the plane within 0.0500 EV only; the spline reaches 0.0200 EV, which is no better within its standard error of 0.0020 EV.',
  );
});

test('chooseSurface takes the best where nothing simpler comes near', () => {
  const { chosen, because } = chooseSurface([surface('plane', 0.05, 0.03), surface('spline', 0.02, 0.002)]);
  expect(chosen.name).toBe('spline');
  expect(because).toBe(
    'The spline foretells parts of the frame that it was not fitted to within 0.0200 EV, the plane within 0.0500 EV only.',
  );
});

test('chooseSurface says so where the simplest is best, or the only one', () => {
  const plane = surface('plane', 0.01, 0.001);
  expect(chooseSurface([plane, surface('spline', 0.02, 0.001)]).because).toMatch(
    /0\.0100 EV; nothing richer does better\.$/,
  );
  expect(chooseSurface([plane]).because).toBe('The plane is the only surface that so few cells allow.');
  expect(() => chooseSurface([])).toThrow(RangeError);
});

test('chooseSurface takes the plane for a plane under noise, whatever the seed', () => {
  for (let seed = 1; seed <= 12; seed++) {
    const grid = gridOfLight((x, y) => [-1 + 0.5 * x, -1 + 0.4 * x + 0.2 * y, -1.2], {
      noiseEv: 0.004,
      seed,
    });
    expect(chooseSurface(fitSurfaces(grid)).chosen.name).toBe('plane');
  }
});

test('chooseSurface takes the plane for a plane without any noise', () => {
  const grid = gridOfLight((x, y) => [-1 + 0.5 * x, -1 + 0.5 * x + 0.2 * y, -1.2]);
  expect(chooseSurface(fitSurfaces(grid)).chosen.name).toBe('plane');
});

test('chooseSurface takes something richer than a plane for a hot spot', () => {
  const grid = gridOfLight(
    (x, y) => {
      const level = -0.8 * ((x - 0.5) ** 2 * 2.25 + (y - 0.5) ** 2);
      return [level, level, level];
    },
    { noiseEv: 0.004 },
  );
  const { chosen, because } = chooseSurface(fitSurfaces(grid));
  console.log(`measured: ${because}`);
  expect(['quadratic', 'radial']).toContain(chosen.name);
});

test('errors that neighbouring cells share do not make chooseSurface take the spline', () => {
  // a weave of 6 cells by 5 over a plane: cells held out one by one would be foretold by their neighbours
  const weave = (x: number, y: number) => {
    const [c, r] = [Math.floor(x * 96), Math.floor(y * 64)];
    return 0.01 * Math.sin((2 * Math.PI * c) / 12.3) * Math.sin((2 * Math.PI * r) / 10.7);
  };
  const grid = gridOfLight(
    (x, y) => {
      const level = -1 + 0.3 * x + weave(x, y);
      return [level, level, level];
    },
    { noiseEv: 0.002 },
  );
  const surfaces = fitSurfaces(grid);
  console.log(`measured: ${chooseSurface(surfaces).because}`);
  const [plane, spline] = [surfaces[0]!, surfaces[3]!];
  expect(chooseSurface(surfaces).chosen.name).toBe('plane');
  expect(spline.heldOutEv).toBeGreaterThan(0.9 * plane.heldOutEv);
});
