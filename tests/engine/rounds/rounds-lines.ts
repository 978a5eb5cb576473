import { CAST_LIMITS, type RoundsScore } from './score-rounds.ts';

/** What is aimed at, in the figures' own units. */
export const ROUND_TARGETS = {
  /** Above the best placement by no more than this, or below `enoughEv` at all. */
  aboveBestEv: 0.1,
  enoughEv: 0.15,
  reached: 0.9,
  worseEv: 0.05,
  notWorse: 0.98,
  predictedWithinEv: 0.15,
  predicted: 0.85,
  covered: [0.9, 0.98],
  apartMired: 10,
  planMs: 400,
} as const;

/** So many of so many. */
export interface Share {
  readonly count: number;
  readonly of: number;
}

export interface RoundsFigures {
  readonly reached: Share;
  readonly notWorse: Share;
  readonly predicted: Share;
  readonly covered: Share;
  readonly evenColours: Share;
  readonly neutral: Share;
  readonly planMs: readonly number[];
}

export function roundsFigures(scores: readonly RoundsScore[]): RoundsFigures {
  const count = <T>(all: readonly T[], holds: (each: T) => boolean): Share => ({
    count: all.filter(holds).length,
    of: all.length,
  });
  const rounds = scores.flatMap((score) => score.rounds);
  const { aboveBestEv, enoughEv, worseEv, predictedWithinEv, apartMired } = ROUND_TARGETS;
  return {
    reached: count(scores, ({ leftEv, bestEv }) => leftEv < enoughEv || leftEv <= bestEv + aboveBestEv),
    notWorse: count(
      scores.flatMap((score) => score.worseEv),
      (worse) => worse <= worseEv,
    ),
    predicted: count(rounds, ({ offEv }) => Math.abs(offEv) <= predictedWithinEv),
    covered: count(rounds, ({ offEv, plusMinusEv }) => Math.abs(offEv) <= plusMinusEv),
    evenColours: count(
      scores.flatMap((score) => score.apartMired ?? []),
      ({ left, least }) => left <= Math.max(apartMired, least),
    ),
    neutral: count(
      scores.flatMap(({ cast }) => cast ?? []),
      ({ mired, duv }) => Math.abs(mired) <= CAST_LIMITS.mired && Math.abs(duv) <= CAST_LIMITS.duv,
    ),
    planMs: scores.flatMap((score) => score.planMs).toSorted((a, b) => a - b),
  };
}

/** Every figure beside its target, and whether it holds; then the studios that were left too uneven. */
export function roundsLines(name: string, scores: readonly RoundsScore[]): string[] {
  const figures = roundsFigures(scores);
  const { reached, notWorse, predicted, covered, evenColours, neutral, planMs } = figures;
  const [least, most] = ROUND_TARGETS.covered;
  const stopped = scores.reduce((sum, score) => sum + score.stopped, 0);
  const inPicture = scores.reduce((sum, score) => sum + score.inPicture, 0);
  const cutShortEv = scores.flatMap((score) => score.worseCutShortEv);
  const cutShort = {
    count: cutShortEv.filter((ev) => ev > ROUND_TARGETS.worseEv).length,
    of: cutShortEv.length,
  };
  const median = planMs[Math.floor(planMs.length / 2)] ?? Number.NaN;
  const worst = planMs.at(-1) ?? Number.NaN;
  const row = (what: string, figure: string, target: string, holds: boolean) =>
    `measured: ${holds ? 'holds ' : 'misses'} | ${name}: ${what}: ${figure} | target: ${target}`;
  const atLeast = (what: string, share: Share, target: number) =>
    row(what, ofAll(share), `at least ${percent(target)}`, share.of === 0 || partOf(share) >= target);
  return [
    atLeast('left within 0.10 EV of the best placement, or below 0.15 EV', reached, ROUND_TARGETS.reached),
    atLeast('rounds done as advised that made it no worse by over 0.05 EV', notWorse, ROUND_TARGETS.notWorse),
    row('rounds after which a light stood in the picture', `${inPicture}`, 'none', inPicture === 0),
    `measured: ${name}: rounds in which a wall stopped a light: ${stopped}; worse by over 0.05 EV after ${cutShort.count} of ${cutShort.of} that moved one`,
    atLeast('outcomes within 0.15 EV of what was foretold', predicted, ROUND_TARGETS.predicted),
    row(
      'outcomes inside the foretold ±',
      ofAll(covered),
      `${percent(least)} to ${percent(most)}`,
      partOf(covered) >= least && partOf(covered) <= most,
    ),
    atLeast('unequal lights within 10 mired, or as near as gels sold allow', evenColours, 1),
    atLeast('casts within 10 mired and 0.002 Duv', neutral, 1),
    row(
      'plan and findings',
      `median ${median.toFixed(0)} ms, worst ${worst.toFixed(0)} ms`,
      `${ROUND_TARGETS.planMs} ms`,
      worst <= ROUND_TARGETS.planMs,
    ),
    ...scores
      .filter(
        ({ leftEv, bestEv }) =>
          leftEv >= ROUND_TARGETS.enoughEv && leftEv > bestEv + ROUND_TARGETS.aboveBestEv,
      )
      .map(
        ({ seed, startEv, bestEv, leftEv }) =>
          `measured: ${name}: studio ${seed} went from ${startEv.toFixed(2)} to ${leftEv.toFixed(2)} EV, best ${bestEv.toFixed(2)}`,
      ),
  ];
}

const partOf = ({ count, of }: Share) => (of === 0 ? 1 : count / of);
const percent = (share: number) => `${Number((100 * share).toFixed(1))} %`;
const ofAll = (share: Share) => `${share.count} of ${share.of} (${percent(partOf(share))})`;
