import { choleskyFactor } from '../numeric/cholesky-factor.ts';
import { leastSquares } from '../numeric/least-squares.ts';
import type { LitSet } from './lit-set.ts';
import { misfit } from './misfit.ts';
import type { SampleError, SeenFrame } from './seen-frames.ts';
import type { SetModel } from './set-model.ts';
import type { SetSamples } from './set-samples.ts';

/** One kind of set that explains the frames, and how likely it is beside the others. */
export interface Mode {
  readonly model: SetModel;
  /** Best point, in standard deviations from what is expected. */
  readonly point: Float64Array;
  /** Inverse covariance of the point, row-major. */
  readonly information: Float64Array;
  /** 0 to 1; they add up to 1. */
  readonly weight: number;
}

/** The sets that explain frames. */
export interface FittedSet {
  /** Likeliest first. */
  readonly modes: readonly Mode[];
  /** The likeliest set. */
  readonly set: LitSet;
  /** Root mean square of what that leaves over of each frame, the blank one first. */
  readonly leftOver: readonly SampleError[];
}

/** A family of sets and where to begin in it. */
export interface Family {
  readonly model: SetModel;
  readonly starts: readonly Float64Array[];
  /** Where else, should no set that was found follow the frame. */
  readonly furtherStarts?: readonly Float64Array[];
  /** Points that explained earlier takes, as far as they can be carried over. */
  readonly carried?: readonly Float64Array[];
  /** Whether such a set can be at all, beside what the frames show; left out: any can. */
  readonly canBe?: (set: LitSet) => boolean;
  /** How much rarer than the others it is beforehand, in nats. */
  readonly rarer: number;
}

/** A first guess, before anything was fitted: small enough that valleys differ, large enough to get out of them. */
const FIRST_ERROR: SampleError = { ev: 0.015, uv: 0.0003 };

const THINNING = 4;
/** Steps of it never fall in with the length of a row. */
const GOLDEN_SECTION = (Math.sqrt(5) - 1) / 2;
const SCOUTING_ROUNDS = 4;
const SETTLING_ROUNDS = 12;
const FINISHING_ROUNDS = 25;
/**
 * A valley that runs out of rounds on its way down, and so many nats from the best at most, is followed on to its
 * bottom: half way down it would be weighed too lightly.
 */
const STILL_LIKELY = 40;
const FOLLOWING_ROUNDS = 60;
/** Where far less is left over than was thought, the bottom is looked for once more. */
const MUCH_LESS = 0.7;

/** So many valleys are searched to their bottom. */
const MOST_MODES = 3;
/** Points closer than this in every parameter are in one valley. */
const SAME_VALLEY = 0.5;
/** A valley that scouting leaves so much worse, in nats, is not searched on; nor one that settling does. */
const HOPELESS = 60;
const SURELY_WORSE = 3;
const LEAST_WEIGHT = 0.02;

/** A set that leaves more than this over of the blank frame may be in the wrong valley, in stops. Own choice. */
const FOLLOWED_EV = 0.005;

/**
 * Fits families of sets to frames of one set, the blank one first: every parameter with its expectation, frames and
 * expectations as one least-squares problem, from several starts. What explains the frames nearly as well is kept
 * beside the best, weighted by its evidence (Laplace's approximation), so that simpler sets win where they explain as
 * much. The error of a sample is what the best set leaves over of its frame: a frame that no set explains has a
 * large ±.
 */
export function fitSet(families: readonly Family[], frames: readonly SeenFrame[]): FittedSet {
  const fitted = searchedFrom(families, frames);
  const hasMore = families.some(({ furtherStarts = [] }) => furtherStarts.length > 0);
  if (!hasMore || fitted.leftOver[0]!.ev < FOLLOWED_EV) return fitted;
  const everywhere = families.map((family) => ({
    ...family,
    starts: [...family.starts, ...(family.furtherStarts ?? [])],
  }));
  return searchedFrom(everywhere, frames);
}

function searchedFrom(families: readonly Family[], frames: readonly SeenFrame[]): FittedSet {
  const guess = frames.map(({ leastError }) => ({
    ev: Math.max(FIRST_ERROR.ev, leastError.ev),
    uv: Math.max(FIRST_ERROR.uv, leastError.uv),
  }));
  const searched = (from: readonly Valley[], rounds: number, seen: readonly SeenFrame[]) =>
    from.map(({ family, point }) => {
      const off = misfit(family.model, seen.map(thinned), guess);
      return { family, ...leastSquares(off.residuals, point, off.length, rounds, off.near) };
    });
  const starts = families.flatMap((family) => family.starts.map((point) => ({ family, point })));
  // earlier takes tell valleys apart, but a search that is far from any of them would be led astray by them
  const ofNow = frames.filter(({ isEarlier }) => !isEarlier);
  const isFirst = ofNow.length === frames.length;
  const scouts = differentValleys(searched(starts, SCOUTING_ROUNDS, ofNow));
  const found = whatCanBe(searched(scouts, SETTLING_ROUNDS, ofNow));
  const carried = families.flatMap((family) => (family.carried ?? []).map((point) => ({ family, point })));
  const settled = differentValleys(
    isFirst ? found : searched([...carried, ...differentValleys(found)], SETTLING_ROUNDS, frames),
    SURELY_WORSE,
  );
  // what is left over far from the bottom would make any set good enough for all takes
  const first = isFirst ? leastLeftOver(settled, frames) : guess;
  let finished = settled.map((valley) => bottomOf(valley, frames, first, FINISHING_ROUNDS));
  const likeliest = Math.max(...finished.map(({ evidence }) => evidence));
  finished = finished.map((valley) =>
    valley.iterations === FINISHING_ROUNDS && valley.evidence > likeliest - STILL_LIKELY
      ? bottomOf(valley, frames, first, FOLLOWING_ROUNDS)
      : valley,
  );
  const then = leastLeftOver(finished, frames);
  if (then.some(({ ev, uv }, i) => ev < MUCH_LESS * first[i]!.ev || uv < MUCH_LESS * first[i]!.uv))
    finished = finished.map((valley) => bottomOf(valley, frames, then, FINISHING_ROUNDS));
  finished = differentValleys(whatCanBe(finished));
  finished.sort((a, b) => b.evidence - a.evidence);
  const best = finished[0]!;
  const likely = finished.filter(({ evidence }) => evidence > best.evidence + Math.log(LEAST_WEIGHT));
  const all = likely.reduce((sum, { evidence }) => sum + Math.exp(evidence - best.evidence), 0);
  return {
    modes: likely.map(({ family, point, information, evidence }) => ({
      model: family.model,
      point,
      information,
      weight: Math.exp(evidence - best.evidence) / all,
    })),
    set: best.family.model.setAt(best.point),
    leftOver: best.leftOver,
  };
}

/** A place in a family's valleys. */
interface Valley {
  readonly family: Family;
  readonly point: Float64Array;
}

/** Valleys whose sets can be; all of them where none can. */
function whatCanBe<Found extends Valley>(valleys: readonly Found[]): Found[] {
  const possible = valleys.filter(({ family, point }) => family.canBe?.(family.model.setAt(point)) ?? true);
  return possible.length > 0 ? possible : [...valleys];
}

/** The bottom of a valley, frames erring by so much, and how well it explains them. */
function bottomOf(
  { family, point }: Valley,
  frames: readonly SeenFrame[],
  errors: readonly SampleError[],
  rounds: number,
) {
  const off = misfit(family.model, frames, errors);
  const bottom = leastSquares(off.residuals, point, off.length, rounds, off.near);
  const information = steadied(bottom.information(), point.length);
  const evidence = -bottom.cost - logDeterminant(information, point.length) / 2 - family.rarer;
  return { family, ...bottom, information, evidence, leftOver: off.leftOver(bottom.point) };
}

/** Rounding of the steepest figures is more than the flattest weigh; a share of each figure's own keeps them apart. */
const STEADY = 1e-9;

function steadied(matrix: Float64Array, size: number): Float64Array {
  for (let i = 0; i < size; i++) matrix[i * size + i]! *= 1 + STEADY;
  return matrix;
}

/** What the best of the valleys leaves over of each frame. */
function leastLeftOver(valleys: readonly Valley[], frames: readonly SeenFrame[]): SampleError[] {
  const each = valleys.map(({ family, point }) =>
    misfit(
      family.model,
      frames,
      frames.map(({ leastError }) => leastError),
    ).leftOver(point),
  );
  return frames.map(({ leastError }, i) => ({
    ev: Math.max(leastError.ev, Math.min(...each.map((leftOver) => leftOver[i]!.ev))),
    uv: Math.max(leastError.uv, Math.min(...each.map((leftOver) => leftOver[i]!.uv))),
  }));
}

/** Those that explain the frames best, each from another valley, and of every family at least one. */
function differentValleys<Scout extends Valley & { readonly cost: number }>(
  scouts: readonly Scout[],
  hopeless = HOPELESS,
): Scout[] {
  const sorted = scouts.toSorted((a, b) => a.cost - b.cost);
  const different = sorted.filter(
    (scout, i) => !sorted.slice(0, i).some((better) => isInValley(scout, better)),
  );
  const best = different[0]!;
  const isFirstOfFamily = (scout: Scout) => different.find(({ family }) => family === scout.family) === scout;
  return different.filter(
    (scout, i) =>
      i === 0 || (scout.cost < best.cost + hopeless && (i < MOST_MODES || isFirstOfFamily(scout))),
  );
}

function isInValley(one: Valley, other: Valley): boolean {
  return (
    one.family === other.family &&
    one.point.every((value, i) => Math.abs(value - other.point[i]!) < SAME_VALLEY)
  );
}

/** A quarter of the samples, spread over the frame: enough to tell one valley from another. */
function thinned(frame: SeenFrame): SeenFrame {
  const thin = (values: Float64Array) => values.filter((_, i) => (i * GOLDEN_SECTION) % 1 < 1 / THINNING);
  const { samples } = frame;
  const thinner: SetSamples = {
    ...samples,
    x: thin(samples.x),
    y: thin(samples.y),
    ev: thin(samples.ev),
    uPrime: thin(samples.uPrime),
    vPrime: thin(samples.vPrime),
  };
  return { ...frame, samples: thinner };
}

/** Natural logarithm of the determinant of a positive definite matrix, row-major. */
function logDeterminant(matrix: Float64Array, size: number): number {
  const factor = choleskyFactor(matrix, size);
  let sum = 0;
  for (let i = 0; i < size; i++) sum += 2 * Math.log(factor[i * size + i]!);
  return sum;
}
