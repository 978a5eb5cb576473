import type { Move } from '../../../src/engine/moves/move.ts';
import { seededRandom } from '../../../src/engine/numeric/seeded-random.ts';
import { bestPlacementEv } from '../../synthetic/random/best-placement.ts';
import type { PlayedRounds } from './play-rounds.ts';
import { tradeStrengthsMired } from './trade-strengths.ts';

/** What came of one studio, against what its room allows. */
export interface RoundsScore {
  readonly seed: number;
  readonly startEv: number;
  /** The evenest that any placement in the room allows. */
  readonly bestEv: number;
  /** As it was left. */
  readonly leftEv: number;
  /** Of each round whose outcome was foretold: that outcome against it, its ±; and what each round as it was advised made worse. */
  readonly rounds: readonly { readonly offEv: number; readonly plusMinusEv: number }[];
  readonly worseEv: readonly number[];
  /** What rounds made worse in which a wall stopped a light short of where it was sent. */
  readonly worseCutShortEv: readonly number[];
  /** Rounds in which a light was sent beyond a wall. */
  readonly stopped: number;
  /** Rounds after which a light stood in the picture. */
  readonly inPicture: number;
  /** How far two lights of unequal colour were left apart, and what the best gel sold would leave; in mired. */
  readonly apartMired: { readonly left: number; readonly least: number } | null;
  /** Cast of a set that began off neutral, as it was left. */
  readonly cast: { readonly mired: number; readonly duv: number } | null;
  readonly planMs: readonly number[];
}

const MOVES_THE_LIGHT: readonly Move['kind'][] = [
  'slide-lamp',
  'lamp-distance',
  'turn-lamp',
  'balance-lamps',
  'add-diffusion',
  'block-stray',
];

/** So far from white a set has a cast that is worth taking out. */
export const CAST_LIMITS = { mired: 10, duv: 0.002 } as const;

/** @param bestEv what any placement allows, where it was searched for before */
export function scoreRounds(played: PlayedRounds, bestEv = bestOf(played)): RoundsScore {
  const { studio, startEv, rounds, casts, planMs } = played;
  const outcomes = [startEv, ...rounds.map(({ outcomeEv }) => outcomeEv)];
  const worse = rounds.flatMap(({ moves, outcomeEv, isStopped }, i) =>
    moves.some(({ kind }) => MOVES_THE_LIGHT.includes(kind))
      ? [{ isStopped, ev: outcomeEv - outcomes[i]! }]
      : [],
  );
  return {
    seed: studio.seed,
    startEv,
    bestEv,
    leftEv: outcomes.at(-1)!,
    rounds: rounds.flatMap(({ predicted, outcomeEv }) =>
      predicted === null
        ? []
        : [{ offEv: outcomeEv - predicted.spreadEv, plusMinusEv: predicted.plusMinusEv }],
    ),
    worseEv: worse.flatMap(({ isStopped, ev }) => (isStopped ? [] : [ev])),
    worseCutShortEv: worse.flatMap(({ isStopped, ev }) => (isStopped ? [ev] : [])),
    stopped: rounds.filter(({ isStopped }) => isStopped).length,
    inPicture: rounds.filter(({ isInPicture }) => isInPicture).length,
    apartMired: apartOf(played),
    cast: isNeutral(casts[0])
      ? null
      : { mired: casts[1].mired ?? Number.NaN, duv: casts[1].duv ?? Number.NaN },
    planMs,
  };
}

/** Searched for from the studio as it was and as it was left, too. */
const bestOf = ({ studio, left }: PlayedRounds) =>
  Math.min(
    bestPlacementEv(studio.set, studio.setup.room, seededRandom(studio.seed)),
    bestPlacementEv({ ...studio.set, lamps: left.lamps }, studio.setup.room, seededRandom(studio.seed), 0),
  );

const isNeutral = ({ mired, duv }: PlayedRounds['casts'][number]) =>
  mired !== null && duv !== null && Math.abs(mired) <= CAST_LIMITS.mired && Math.abs(duv) <= CAST_LIMITS.duv;

function apartOf({ studio, gels }: PlayedRounds): RoundsScore['apartMired'] {
  const planted = studio.planted.find((each) => each.kind === 'unequal-colour');
  if (planted?.kind !== 'unequal-colour') return null;
  const before = planted.warmer === 0 ? planted.mired : -planted.mired;
  const left = gels.reduce((apart, { lamp, mired }) => apart + (lamp === 0 ? mired : -mired), before);
  const least = Math.min(
    Math.abs(before),
    ...tradeStrengthsMired().flatMap((mired) => [Math.abs(before + mired), Math.abs(before - mired)]),
  );
  return { left: Math.abs(left), least };
}
