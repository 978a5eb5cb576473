import { describe, expect, test } from 'vitest';
import { causeShares } from '../../../src/engine/lamps/cause-shares.ts';
import type { FittedSet } from '../../../src/engine/lamps/fit-set.ts';
import { likelySets } from '../../../src/engine/lamps/likely-sets.ts';
import type { LitSet } from '../../../src/engine/lamps/lit-set.ts';
import type { ModelledCause } from '../../../src/engine/lamps/taken-out.ts';
import { expectWithin } from '../../expect-within.ts';
import { fittedOf, modeOf } from './mode-of.ts';
import { lightOf, setOf, WHITE } from './set-of.ts';

const LEAST = { ev: 0.05, deltaUv: 0.001 };
const ASPECT = 2 / 3;
const CORNER_SQUARE = (1 + ASPECT ** 2) / 4;

/** A lattice from corner to corner of the frame. */
const SPOTS = (() => {
  const places = Array.from({ length: 13 * 9 }, (_, i) => [
    (i % 13) / 12 - 0.5,
    (Math.floor(i / 13) / 8 - 0.5) * ASPECT,
  ]);
  return { x: Float64Array.from(places, ([x]) => x!), y: Float64Array.from(places, ([, y]) => y!) };
})();

/** A panel and a lens that both fall as r², by so many stops in the corners: only their sum shows. */
function panelAndLens(panelEv: number, lensEv: number): LitSet {
  return setOf([], {
    panel: {
      x: 0,
      y: 0,
      levelEv: 0,
      acrossEv: -panelEv / CORNER_SQUARE,
      downEv: (-panelEv * ASPECT ** 2) / CORNER_SQUARE,
      rightEv: 0,
      bottomEv: 0,
      halfWidth: 1,
      halfHeight: ASPECT,
      colour: WHITE,
    },
    lens: { squareEv: lensEv, fourthEv: 0, corner: WHITE },
  });
}

const sharesOf = (fit: FittedSet) => causeShares(likelySets(fit, 48), SPOTS, LEAST);
const shareOf = (fit: FittedSet, cause: ModelledCause) =>
  sharesOf(fit).causes.find((each) => each.cause === cause);

describe('causeShares(sets, spots, least)', () => {
  test('gives what each cause takes of the best set’s spread, and its ± over the likely ones', () => {
    const fit = fittedOf([modeOf(([off]) => panelAndLens(0.5, 0.3 + off!), [0.02])]);
    const lens = shareOf(fit, 'lens-falloff')!;
    expectWithin(lens.ev, 0.3, 1e-9);
    expectWithin(lens.plusMinusEv, 1.96 * 0.02, 0.012); // 48 draws
    expect(lens.confidence).toBe(1);
    const panel = shareOf(fit, 'hot-spot')!;
    expectWithin(panel.ev, 0.5, 1e-9);
    expectWithin(panel.plusMinusEv, 0, 1e-9);
  });

  test('is as confident as there are likely sets in which a cause takes more than the least', () => {
    for (const [middle, expected] of [
      [0.05, 0.5],
      [0.07, 0.84],
      [0.03, 0.16],
      [0.2, 1],
      [0, 0.006],
    ] as const) {
      const fit = fittedOf([modeOf(([off]) => panelAndLens(0.5, middle + off!), [0.02])]);
      expectWithin(shareOf(fit, 'lens-falloff')!.confidence, expected, 0.16);
    }
    const either = fittedOf([
      modeOf(([off]) => panelAndLens(0.5, 0.3 + off!), [0.001], 0.75),
      modeOf(([off]) => panelAndLens(0.8, off!), [0.001], 0.25),
    ]);
    expectWithin(shareOf(either, 'lens-falloff')!.confidence, 0.75, 0.02);
  });

  test('tells a cause that hides another one by a share below 0', () => {
    const fit = fittedOf([modeOf(([off]) => panelAndLens(-0.4 + off!, 0.6), [0.01])]);
    const panel = shareOf(fit, 'hot-spot')!;
    expectWithin(panel.ev, -0.4, 1e-9);
    expect(panel.confidence).toBe(0);
  });

  test('counts causes of colour by their colour where they take nothing of the evenness', () => {
    const warm = ([off]: Float64Array, mired: number) => {
      const lens = { squareEv: 0, fourthEv: 0, corner: { mired: mired + off!, duv: 0 } };
      return { ...panelAndLens(0.4, 0), lens };
    };
    const strong = shareOf(fittedOf([modeOf((point) => warm(point, 8), [0.1])]), 'lens-colour')!;
    expect(strong.deltaUv).toBeGreaterThan(0.001);
    expect(Math.abs(strong.ev)).toBeLessThan(1e-9);
    expect(strong.confidence).toBe(1);
    expect(shareOf(fittedOf([modeOf((point) => warm(point, 1), [0.1])]), 'lens-colour')!.confidence).toBe(0);
  });

  test('does not count by their colour causes that are none of it', () => {
    // a panel hotter all round under a lens that falls off: without it the light is less even, its mixture with spill more
    const spill = { levelEv: -2, rightEv: 0, downEv: 0, colour: { mired: 150, duv: 0 } };
    const panel = shareOf(
      fittedOf([modeOf(([off]) => ({ ...panelAndLens(-0.5 + off!, 0.6), spill }), [0.01])]),
      'hot-spot',
    )!;
    expect(panel.ev).toBeLessThan(0);
    expect(panel.deltaUv).toBeGreaterThan(0.0015);
    expect(panel.confidence).toBe(0);
  });

  test('lists the causes that the arrangement can have, and no others', () => {
    const kinds = (set: LitSet) =>
      new Set(sharesOf(fittedOf([modeOf(() => set, [1])])).causes.map(({ cause }) => cause));
    expect(kinds(panelAndLens(0.2, 0.1))).toEqual(new Set(['hot-spot', 'lens-falloff', 'lens-colour']));
    expect(kinds(setOf([lightOf()]))).toEqual(new Set(['off-centre', 'too-close', 'aimed-off']));
    expect(kinds(setOf([lightOf({ x: -0.8 }), lightOf({ x: 0.8 })]))).toEqual(
      new Set(['off-centre', 'too-close', 'aimed-off', 'unequal-lamps', 'unequal-colour']),
    );
  });
});

describe('rivals', () => {
  /** The sum of both in the corners is sure, what is whose is not. */
  const trading = (deviation: number, total = 0.6, unsureTotal = 0.005) =>
    fittedOf([
      modeOf(
        ([off, sum]) => panelAndLens(total / 2 - off!, total / 2 + off! + sum!),
        [deviation, unsureTotal],
      ),
    ]);

  test('two causes that trade against each other are told, with what they take together', () => {
    const { rivals } = sharesOf(trading(0.2));
    expect(rivals).toHaveLength(1);
    expect(rivals[0]!.causes).toEqual(['lens-falloff', 'hot-spot']);
    expectWithin(rivals[0]!.ev, 0.6, 0.005);
    expectWithin(rivals[0]!.plusMinusEv, 1.96 * 0.005, 0.003);
    expect(rivals[0]!.confidence).toBe(1);
  });

  test('those that do not trade are not: as unsure together as apart', () => {
    const apart = fittedOf([modeOf(([a, b]) => panelAndLens(0.3 + a!, 0.3 + b!), [0.1, 0.1])]);
    expect(sharesOf(apart).rivals).toEqual([]);
    expect(sharesOf(trading(0.1, 0.6, 0.1)).rivals).toEqual([]);
  });

  test('nor those whose own shares are known to less than is worth telling', () => {
    expect(sharesOf(trading(0.02, 0.6, 0.001)).rivals).toEqual([]);
    expect(sharesOf(trading(0.04, 0.6, 0.001)).rivals).toHaveLength(1);
  });

  test('nor two of which one is hardly there', () => {
    const hardly = fittedOf([modeOf(([off]) => panelAndLens(0.6 - off!, off!), [0.025])]);
    expect(sharesOf(hardly).rivals).toEqual([]);
  });

  test('nor where both together may take too little', () => {
    const { causes, rivals } = sharesOf(trading(0.05, 0.09, 0.03));
    for (const cause of ['lens-falloff', 'hot-spot'])
      expect(causes.find((each) => each.cause === cause)!.confidence).toBeGreaterThan(0.25); // either may be there
    expect(rivals).toEqual([]);
  });

  test('nor causes that do not look alike, though they trade', () => {
    // the sheet’s lobe and an aim to one side: no pair of those that are weighed against each other
    const set = ([off]: Float64Array) =>
      setOf([lightOf({ x: 0, aimX: 0.5 + off!, beamPower: 4, strengthEv: 0 })], {
        sheet: { forwardShare: 0.3 - off!, lobeRad: 0.4 },
      });
    const { rivals } = sharesOf(fittedOf([modeOf(set, [0.1])]));
    expect(rivals.map(({ causes }) => causes)).not.toContainEqual(['aimed-off', 'hot-spot']);
  });

  test('a light that stands aside and one that is aimed aside can be rivals', () => {
    // a far, tight beam: its hot spot alone shows, which goes by the place and the aim together
    const set = ([off]: Float64Array) => {
      const x = 0.1 + off!;
      return setOf([lightOf({ x, y: 0, aimX: 0.25, aimY: 0.2, distance: 1.4, beamPower: 9 })]);
    };
    const { causes, rivals } = sharesOf(fittedOf([modeOf(set, [0.12])]));
    const ev = (wanted: ModelledCause) => causes.find(({ cause }) => cause === wanted)!;
    console.log(
      `measured: off-centre ± ${ev('off-centre').plusMinusEv.toFixed(2)}, aimed-off ± ${ev('aimed-off').plusMinusEv.toFixed(2)}, rivals ${rivals.map((each) => `${each.causes.join(' and ')} ± ${each.plusMinusEv.toFixed(2)}`)}`,
    );
    expect(rivals.map(({ causes: pair }) => pair)).toEqual([['off-centre', 'aimed-off']]);
  });
});
