import { expect, test } from 'vitest';
import type { Finding } from '../../../src/engine/reading.ts';
import type { RandomStudio } from '../../synthetic/random/random-studio.ts';
import type { TrueShare } from '../../synthetic/random/true-shares.ts';
import { falseCauses, falseTextures } from './false-causes.ts';

const share = (kind: TrueShare['kind'], change: Partial<TrueShare> = {}): TrueShare => ({
  kind,
  isPlanted: false,
  ev: 0,
  tintDeltaUv: 0,
  castDeltaUv: 0,
  ...change,
});
const told = (kind: Finding['kind'], confidence: number) => ({ kind, confidence }) as Finding;

test('a cause is false where it is told though neither planted nor left by chance', () => {
  const truth = [
    share('off-centre', { isPlanted: true }),
    share('too-close', { ev: 0.031 }),
    share('stray-light', { tintDeltaUv: 0.0009 }),
    share('tinted-all-over', { castDeltaUv: 0.0011 }),
    share('lens-falloff', { ev: 0.029, castDeltaUv: 0.0011 }),
    share('bands'),
  ];
  const everything = truth.map(({ kind }) => told(kind, 0.9));
  expect(falseCauses(truth, everything)).toEqual({
    told: ['lens-falloff', 'bands'],
    possible: ['lens-falloff', 'bands'],
  });
  expect(falseCauses(truth, [])).toEqual({ told: [], possible: ['lens-falloff', 'bands'] });
});

test('what is told at half a confidence or less is not told', () => {
  expect(falseCauses([share('bands')], [told('bands', 0.5)]).told).toEqual([]);
  expect(falseCauses([share('bands')], [told('bands', 0.51)]).told).toEqual(['bands']);
});

test('textures are there where they were planted, and none is expected of a panel but specks', () => {
  const everything = (['creases', 'weave', 'specks'] as const).map((kind) => told(kind, 1));
  const studio = (arrangement: string) =>
    ({ planted: [{ kind: 'weave' }], setup: { arrangement } }) as unknown as RandomStudio;
  expect(falseTextures(studio('behind-sheet'), everything).told).toEqual(['creases', 'specks']);
  expect(falseTextures(studio('panel'), []).possible).toEqual(['specks']);
});
