import { quantile } from '../numeric/quantile.ts';
import type { SeededRandom } from '../numeric/seeded-random.ts';
import type { Place } from './bracket-places.ts';
import {
  backward,
  type CurveSolution,
  type CurveSums,
  curveSums,
  type Sight,
  solveCurve,
  weightOf,
} from './curve-fit.ts';
import { type CurveGuess, curveGuess } from './curve-guess.ts';
import { SPLINES } from './curve-prior.ts';

/** One curve under every smoothness and scatter of exposures that were tried, weighted by their evidence. */
export interface WeighedCurves {
  readonly solutions: readonly (CurveSolution & { readonly share: number })[];
  /** Their mean: splines' heights over sRGB's curve, then what each frame's exposure is off in stops. */
  readonly parameters: Float64Array;
}

export interface FittedCurve extends WeighedCurves {
  readonly sums: CurveSums;
  /** What the fit was made with, place by place. */
  readonly sights: readonly (readonly Sight[])[];
  /** Stops by which each place's sightings lie above its light. */
  readonly residuals: readonly Float64Array[];
  /** The same in standard deviations by the pixels' own scatter, and how many of these a usual one really has. */
  readonly standard: readonly Float64Array[];
  readonly sigma: number;
}

/** Second differences of splines' heights, in stops: from hardly any bend to a curve of any shape. */
const ROUGHNESSES = [0.0005, 0.002, 0.006, 0.018, 0.05, 0.15];
/** Standard deviation that frames' exposures may have, in stops, and how likely that is. */
export interface Shutter {
  readonly exposureEv: number;
  readonly share: number;
}

/** From electronic shutters to worn leaves, and how often each is met before any frame is seen: an own guess. */
const SHUTTERS: readonly Shutter[] = [
  { exposureEv: 0.003, share: 0.4 },
  { exposureEv: 0.01, share: 0.3 },
  { exposureEv: 0.03, share: 0.2 },
  { exposureEv: 0.08, share: 0.1 },
];
const FIRST = { roughness: 0.03, exposureEv: 0.1 };
const ROUNDS = 6;
/** Residuals beyond so many standard deviations count ever less, and beyond the second nothing. */
const TUKEY = 4.7;

export function fitCurve(places: readonly Place[], stops: readonly number[]): FittedCurve {
  let guess = curveGuess(null);
  let off: Float64Array = new Float64Array(stops.length);
  let looks = places.map((place) => look(place, guess, stops, off, null));
  let standard: Float64Array[] = [];
  let sigma = 1;
  for (let round = 0; round < ROUNDS; round++) {
    const sums = curveSums(looks.map(sightsOf), stops);
    // exposures are taken at their word until the noise has been told from the light
    const { parameters } = solveCurve(sums, FIRST.roughness, round < 2 ? 1e-4 : FIRST.exposureEv);
    guess = curveGuess(parameters);
    off = parameters.slice(SPLINES);
    looks = places.map((place, p) => look(place, guess, stops, off, looks[p]!));
    standard = looks.map(standardOf);
    // by the middle of the residuals, which few strays do not move; never surer than the pixels' own scatter
    sigma = Math.max(1, middleSize(standard) / MEDIAN_OF_NORMAL);
    looks = looks.map((own, p) => ({
      ...own,
      weights: own.weights.map((weight) => weight / sigma ** 2),
      trust: standard[p]!.map((value) => tukey(value / sigma)),
    }));
  }
  const sights = looks.map(sightsOf);
  const sums = curveSums(sights, stops);
  const residuals = looks.map(({ residuals }) => residuals);
  return { ...weighCurves(sums), sums, sights, residuals, standard, sigma };
}

/** Solves under every smoothness and scatter of exposures, and weighs the solutions by their evidence. */
export function weighCurves(sums: CurveSums, shutters: readonly Shutter[] = SHUTTERS): WeighedCurves {
  const tried = ROUGHNESSES.flatMap((roughness) =>
    shutters.map(({ exposureEv, share }) => {
      const solution = solveCurve(sums, roughness, exposureEv);
      return { ...solution, logEvidence: solution.logEvidence + Math.log(share) };
    }),
  );
  const best = Math.max(...tried.map(({ logEvidence }) => logEvidence));
  const total = tried.reduce((sum, { logEvidence }) => sum + Math.exp(logEvidence - best), 0);
  const solutions = tried
    .map((solution) => ({ ...solution, share: Math.exp(solution.logEvidence - best) / total }))
    .filter(({ share }) => share > 1e-3);
  const kept = solutions.reduce((sum, { share }) => sum + share, 0);
  const parameters = new Float64Array(sums.size);
  for (const solution of solutions)
    for (let i = 0; i < sums.size; i++) parameters[i]! += (solution.share / kept) * solution.parameters[i]!;
  return { solutions, parameters };
}

/** Parameters as likely as the frames make them. */
export function drawnParameters({ solutions }: WeighedCurves, random: SeededRandom): Float64Array {
  let left = random.uniform() * solutions.reduce((sum, { share }) => sum + share, 0);
  let chosen = solutions[0]!;
  for (chosen of solutions) {
    left -= chosen.share;
    if (left <= 0) break;
  }
  const { parameters, factor } = chosen;
  const off = backward(
    factor,
    parameters.map(() => random.normal()),
  );
  return parameters.map((value, i) => value + off[i]!);
}

/** A place as a guess of the curve has it. */
interface Look {
  readonly place: Place;
  /** Codes that the place's light would have without noise, and the curve's slope there. */
  readonly codes: Float64Array;
  readonly slopes: Float64Array;
  /** Stops by which its sightings lie above its light. */
  readonly residuals: Float64Array;
  /** Inverse variances by the pixels' scatter, and shares that strays are trusted by. */
  readonly weights: Float64Array;
  readonly trust: Float64Array;
}

function look(
  place: Place,
  guess: CurveGuess,
  stops: readonly number[],
  off: Float64Array,
  before: Look | null,
): Look {
  const { sightings } = place;
  const light = Float64Array.from(
    sightings,
    ({ code, frame }) => guess.stopsAt(code) - stops[frame]! - off[frame]!,
  );
  const trust = before?.trust ?? new Float64Array(sightings.length).fill(1);
  const weightAt = (codes: Float64Array) =>
    Float64Array.from(sightings, ({ variance }, s) =>
      weightOf(codes[s]!, variance, guess.slopeAt(codes[s]!)),
    );
  const seen = Float64Array.from(sightings, ({ code }) => code);
  const meanLight = weightedMean(light, weightAt(before?.codes ?? seen), trust);
  const codes =
    before === null
      ? seen
      : Float64Array.from(sightings, ({ frame }) => guess.codeAt(meanLight + stops[frame]! + off[frame]!));
  const slopes = codes.map((code) => guess.slopeAt(code));
  // noise is the codes': its size in stops goes by the slope where the light is, not where the noise is
  const residuals = codes.map((code, s) =>
    before === null ? light[s]! - meanLight : (seen[s]! - code) * slopes[s]!,
  );
  return { place, codes, slopes, residuals, weights: weightAt(codes), trust };
}

function sightsOf({ place, codes, slopes, weights, trust }: Look): Sight[] {
  return place.sightings.map(({ frame, code }, s) => ({
    frame,
    code: codes[s]!,
    above: (code - codes[s]!) * slopes[s]!,
    slope: slopes[s]!,
    weight: weights[s]! * trust[s]!,
  }));
}

/** Residuals in standard deviations of the pixels' scatter. */
function standardOf({ residuals, weights }: Look): Float64Array {
  // a mean over few sightings is drawn to each of them
  const few = Math.sqrt(residuals.length / (residuals.length - 1));
  return residuals.map((value, s) => value * Math.sqrt(weights[s]!) * few);
}

function middleSize(standard: readonly Float64Array[]): number {
  const all = Float64Array.from(standard.flatMap((row) => [...row]));
  return quantile(all.map(Math.abs), 0.5);
}

/** Median size of a standard normal number. */
const MEDIAN_OF_NORMAL = 0.6745;

function weightedMean(values: Float64Array, weights: Float64Array, trust: Float64Array): number {
  // places of which nothing is trusted still have a mean
  const own = trust.some((share) => share > 0) ? weights.map((weight, i) => weight * trust[i]!) : weights;
  let [sum, total] = [0, 0];
  for (let i = 0; i < values.length; i++) {
    sum += own[i]! * values[i]!;
    total += own[i]!;
  }
  return sum / total;
}

function tukey(standard: number): number {
  const share = standard / TUKEY;
  return Math.abs(share) >= 1 ? 0 : (1 - share * share) ** 2;
}
