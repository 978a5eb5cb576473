import type { FoundLight } from '../../src/engine/lamps/set-reading.ts';
import type { Move } from '../../src/engine/moves/move.ts';
import { seededRandom } from '../../src/engine/numeric/seeded-random.ts';
import { type Setup, UNKNOWN_SETUP } from '../../src/engine/setup.ts';
import type { PlanInput } from '../../src/plots/plan-input.ts';

/** A light found a quarter of the frame left of its middle and one and a half behind it. */
export function foundLight(change: Partial<FoundLight> = {}): FoundLight {
  return {
    right: { value: -0.25, plusMinus: 0.05 },
    down: { value: 0.06, plusMinus: 0.02 },
    distance: { value: 1.5, plusMinus: 0.3 },
    rightWithDistance: -0.4,
    aimRight: -0.2,
    aimDown: 0.05,
    aimErrorRight: { value: 0, plusMinus: 0.1 },
    aimErrorDown: { value: 0, plusMinus: 0.1 },
    ...change,
  };
}

/** What a plan is drawn from, of sets as the fit finds them and of some that no studio has room for. */
export function randomPlanInput(seed: number): PlanInput {
  const random = seededRandom(seed);
  const between = (least: number, most: number) => least + (most - least) * random.uniform();
  const chance = (share: number) => random.uniform() < share;
  const oneOf = <T>(all: readonly T[]): T => all[Math.floor(random.uniform() * all.length)]!;
  const orUnknown = (mm: number) => (chance(0.3) ? null : mm);
  const isExtreme = chance(0.25);
  const arrangement = oneOf<Setup['arrangement']>(['behind-sheet', 'bounced', 'two-lamps', 'panel']);
  const count = arrangement === 'panel' ? 0 : arrangement === 'two-lamps' ? 2 : 1;
  const frame = between(150, 3000);
  const setup: Setup = {
    ...UNKNOWN_SETUP,
    arrangement,
    frameWidthMm: orUnknown(frame),
    lampDistanceMm: Array.from({ length: count }, () => orUnknown(frame * between(0.3, isExtreme ? 12 : 3))),
    lampWidthMm: orUnknown(frame * between(0.05, isExtreme ? 3 : 0.6)),
    cameraDistanceMm: orUnknown(frame * between(0.8, isExtreme ? 20 : 4)),
  };
  const spreadOf = (least: number) => least * (isExtreme ? 300 ** random.uniform() : between(1, 4));
  const far = isExtreme ? 6 : 1;
  const light = (side: number): FoundLight =>
    foundLight({
      right: { value: side * between(0.5, 1.2) + far * between(-0.5, 0.5), plusMinus: spreadOf(0.03) },
      down: { value: far * between(-0.5, 0.5), plusMinus: spreadOf(0.03) },
      distance: { value: between(0.3, isExtreme ? 12 : 3), plusMinus: spreadOf(0.1) },
      rightWithDistance: between(-0.99, 0.99),
      aimRight: far * between(-0.6, 0.6),
      aimDown: far * between(-0.6, 0.6),
    });
  const lamp = count === 2 && chance(0.5) ? 1 : 0;
  const plain = { bringsEv: null, toward: null, caution: null };
  const moves: Move[] = [
    {
      ...plain,
      kind: 'slide-lamp',
      lamp,
      rightMm: between(-400, 400),
      downMm: between(-200, 200),
      rightFrameWidths: null,
      downFrameWidths: null,
    },
    { ...plain, kind: 'lamp-distance', lamp, ratio: chance(0.5) ? null : between(1.1, 2.5) },
    { ...plain, kind: 'block-stray', fromDeg: between(0, 360) },
  ];
  return {
    setup,
    aspect: oneOf([2 / 3, 3 / 4, 1, 3 / 2]),
    brighterDeg: chance(0.5) ? between(0, 360) : null,
    hottestAt: { x: random.uniform(), y: random.uniform() },
    isHottestClipped: chance(0.2),
    moves: moves.filter(() => chance(0.5)),
    foundLights: Array.from({ length: count }, (_, i) => light(count === 2 ? 2 * i - 1 : 0)),
    spill: chance(0.5)
      ? {
          share: { value: between(0.02, 0.4), plusMinus: between(0.01, 0.1) },
          mired: { value: between(-160, 160), plusMinus: between(5, 100) },
          fromDeg: chance(0.2) ? null : between(-180, 180),
        }
      : null,
  };
}
