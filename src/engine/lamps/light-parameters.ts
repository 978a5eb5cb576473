import type { Setup } from '../setup.ts';
import type { SetLight, SourceColour } from './lit-set.ts';
import type { Known, NextParameter } from './parameters.ts';

/** Where lights of an arrangement usually stand and look: right of the middle, then the deviations of place and aim. */
interface UsualPlace {
  readonly right: number;
  readonly placeDeviation: number;
  readonly aimDeviation: number;
  /** Whether it looks straight at the background rather than at the middle of the frame. */
  readonly looksStraight: boolean;
}

const USUAL: Record<Exclude<Setup['arrangement'], 'panel'>, readonly UsualPlace[]> = {
  'behind-sheet': [{ right: 0, placeDeviation: 0.45, aimDeviation: 0.45, looksStraight: true }],
  bounced: [{ right: 0, placeDeviation: 0.5, aimDeviation: 0.45, looksStraight: true }],
  'two-lamps': [
    { right: -0.9, placeDeviation: 0.4, aimDeviation: 0.45, looksStraight: false },
    { right: 0.9, placeDeviation: 0.4, aimDeviation: 0.45, looksStraight: false },
  ],
};

/** The lights of an arrangement, each figure asked of `next`. */
export function lightParameters(
  arrangement: Exclude<Setup['arrangement'], 'panel'>,
  known: Known,
  castOfFrame: SourceColour,
  next: NextParameter,
): SetLight[] {
  // heads of one set are of nearly one colour
  const first = {
    mired: next('light 0 mired', castOfFrame.mired, 40),
    duv: next('light 0 duv', castOfFrame.duv, 0.006),
  };
  const colours = USUAL[arrangement].map((_, lamp) =>
    lamp === 0
      ? first
      : {
          mired: first.mired + next(`light ${lamp} mired`, 0, 20),
          duv: first.duv + next(`light ${lamp} duv`, 0, 0.002),
        },
  );
  return USUAL[arrangement].map(({ right, placeDeviation, aimDeviation, looksStraight }, lamp) => {
    const named = (what: string) => `light ${lamp} ${what}`;
    const distance = Math.exp(next(named('distance'), ...known.lampDistance(lamp)));
    const x = next(named('right'), right, placeDeviation);
    const y = next(named('down'), 0, placeDeviation);
    const aim = looksStraight ? [x, y] : [0, 0];
    return {
      x,
      y,
      distance,
      aimX: aim[0]! + next(named('aim right'), 0, aimDeviation),
      aimY: aim[1]! + next(named('aim down'), 0, aimDeviation),
      face: { kind: 'disc', radius: Math.exp(next(named('radius'), ...known.lampRadius)) },
      beamPower: Math.exp(next(named('beam'), Math.log(2.2), 0.6)),
      // the level it throws before itself is what the frame tells; a change of distance leaves that alone
      strengthEv: next(named('level'), 0, 10) + 2 * Math.log2(distance),
      colour: colours[lamp]!,
    };
  });
}
