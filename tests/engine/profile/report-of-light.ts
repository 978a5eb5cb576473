import { chooseSurface } from '../../../src/engine/fits/choose-surface.ts';
import { fitSurfaces } from '../../../src/engine/fits/fit-surfaces.ts';
import type { ProfileSource } from '../../../src/engine/profile/make-profile.ts';
import type { FrameFacts } from '../../../src/engine/reading.ts';
import { type GridOptions, gridOfLight } from '../fits/grid-of-light.ts';

const FACTS: FrameFacts = {
  name: 'empty-sweep.png',
  sha256: null,
  widthPx: 1200,
  heightPx: 800,
  orientation: 1,
  bitsPerSample: 16,
  light: 'display-decoded',
  lightSays: '',
  colourProfile: 'sRGB',
  exposure: null,
  averagedFrames: 1,
};

/** What a profile is made from, of a grid that holds exactly the field's log2 light. */
export function reportOfLight(
  log2Light: (x: number, y: number) => readonly [number, number, number],
  options: GridOptions & { facts?: Partial<FrameFacts> } = {},
): ProfileSource {
  const grid = gridOfLight(log2Light, options);
  const surfaces = fitSurfaces(grid);
  const { chosen } = chooseSurface(surfaces);
  const reading = {
    frame: { ...FACTS, ...options.facts },
    gradient: {
      angleDeg: null,
      ev: 0,
      mired: null,
      duv: null,
      from: { x: 0, y: 0.5 },
      to: { x: 1, y: 0.5 },
      explains: 0,
      plusMinusDeg: null,
      plusMinusEv: 0.01,
      plusMinusMired: null,
    },
    tintGradient: { angleDeg: null, deltaUv: 0, mired: null, duv: null },
  };
  const space = {
    name: 'sRGB',
    primaries: { red: [0.64, 0.33], green: [0.3, 0.6], blue: [0.15, 0.06] },
    white: [0.3127, 0.329],
  } as const;
  return { reading, grid, surfaces, chosen, space };
}
