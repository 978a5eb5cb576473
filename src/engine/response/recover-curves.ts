import { quantile } from '../numeric/quantile.ts';
import { type SeededRandom, seededRandom } from '../numeric/seeded-random.ts';
import type { BlockCodes } from './block-codes.ts';
import { bracketPlaces, type Place } from './bracket-places.ts';
import { RESPONSE_CODES, type ResponseChannels } from './camera-response.ts';
import { baseStops } from './code-axis.ts';
import { differenceAt } from './curve-fit.ts';
import { curveGuess } from './curve-guess.ts';
import { drawnParameters, type FittedCurve, fitCurve, type WeighedCurves } from './fit-curve.ts';
import { risingCurve } from './rising-curve.ts';

/** The curves of a bracket's channels, before it is known whether the frames can be gone by. */
export interface RecoveredCurves {
  readonly channels: ResponseChannels<readonly number[]>;
  readonly codes: ResponseChannels<readonly [number, number]>;
  readonly plusMinusEv: number;
  /** Whether one curve explains all channels as well as one each does. */
  readonly isShared: boolean;
  /** Fits channel by channel: one where the frames are grey. */
  readonly fits: readonly { readonly places: readonly Place[]; readonly fit: FittedCurve }[];
}

/** Standard deviation in codes of what a JPEG's rounding makes alike in all places of one level. */
const ALIKE_CODES = 0.2;
const DRAWS = 160;
const PAIRS = 64;
/** Part of the places that the codes told of lie within: a stray speck reaches farther. */
const COVERED = [0.002, 0.998] as const;

/**
 * Recovers the curve of each channel from frames of known steps. Where one curve for all explains them as well, that
 * is taken: white stays white then, also beyond the codes that were seen.
 */
export function recoverCurves(frames: readonly BlockCodes[], stops: readonly number[]): RecoveredCurves {
  const fits = frames[0]!.channels.map((_, channel) => {
    const places = bracketPlaces(frames, channel, stops);
    return { places, fit: fitCurve(places, stops) };
  });
  const shared = fits.length === 1 ? fits[0]!.fit : sharedCurve(fits, stops);
  const curves = shared ? fits.map(() => shared) : fits.map(({ fit }) => fit);
  const codes = fits.map(({ places }) => coveredCodes(places));
  return {
    channels: ofChannels(curves.map(curveOf)),
    codes: ofChannels(codes),
    plusMinusEv: Math.max(
      ...(shared
        ? [plusMinus(shared, widest(codes))]
        : curves.map((curve, c) => plusMinus(curve, codes[c]!))),
    ),
    isShared: shared !== null,
    fits,
  };
}

/** Log2 light at every code, white 0, never falling. */
export function curveOf({ parameters }: Pick<WeighedCurves, 'parameters'>): number[] {
  const raw = Float64Array.from(
    { length: RESPONSE_CODES },
    (_, code) => baseStops(code) + differenceAt(parameters, code),
  );
  const rising = risingCurve(raw);
  const white = rising.at(-1)!;
  return rising.map((stops) => stops - white);
}

/**
 * One curve for all channels, `null` where it leaves more of what they show than one each does. Both are held to the
 * same places, a third of them by each channel: the channels of a JPEG share much of their noise, and to count it
 * thrice would feign certainty.
 */
function sharedCurve(fits: RecoveredCurves['fits'], stops: readonly number[]): FittedCurve | null {
  const thirds = fits.map(({ places, fit }, channel) => {
    const isOwn = (_: unknown, place: number) => place % fits.length === channel;
    return { places: places.filter(isOwn), standard: fit.standard.filter(isOwn), sigma: fit.sigma };
  });
  const together = fitCurve(
    thirds.flatMap(({ places }) => places),
    stops,
  );
  const sigmas = thirds.flatMap(({ places, sigma }) => places.map(() => sigma));
  const apart = thirds.flatMap(({ standard }) => standard);
  const lost = misfit(together.standard, sigmas) - misfit(apart, sigmas);
  const n = apart.reduce((sum, row) => sum + row.length, 0);
  return lost < MOST_LOST * n ? together : null;
}

/** By how much of the noise's own the residuals may grow: rounding between colour models adds as much. */
const MOST_LOST = 0.5;
/** Residuals beyond so many standard deviations count as this: a stray is none the worse for straying far. */
const MOST_SIGMAS = 4.7;

function misfit(standard: readonly Float64Array[], sigmas: readonly number[]): number {
  return standard.reduce(
    (sum, row, p) =>
      row.reduce((own, value) => own + Math.min(Math.abs(value / sigmas[p]!), MOST_SIGMAS) ** 2, sum),
    0,
  );
}

function coveredCodes(places: readonly Place[]): readonly [number, number] {
  const codes = Float64Array.from(places.flatMap(({ sightings }) => sightings.map(({ code }) => code)));
  return [Math.ceil(quantile(codes, COVERED[0])), Math.floor(quantile(codes, COVERED[1]))];
}

const widest = (codes: readonly (readonly [number, number])[]): readonly [number, number] => [
  Math.min(...codes.map(([low]) => low)),
  Math.max(...codes.map(([, high]) => high)),
];

/** 95 of 100 differences between two codes, drawn from among those covered, are off by less. */
function plusMinus(curves: WeighedCurves, [low, high]: readonly [number, number]): number {
  const random = seededRandom(Math.round(1e6 * Math.abs(curves.parameters[0]!)));
  const { slopeAt } = curveGuess(curves.parameters);
  const rounding = (code: number) => ALIKE_CODES * slopeAt(code) * random.normal();
  const at = (code: number, parameters: Float64Array) => differenceAt(parameters, code) + rounding(code);
  const pairs = Array.from({ length: PAIRS }, () => [between(low, high, random), between(low, high, random)]);
  const off = new Float64Array(DRAWS * PAIRS);
  for (let draw = 0, i = 0; draw < DRAWS; draw++) {
    const error = drawnParameters(curves, random).map((value, k) => value - curves.parameters[k]!);
    for (const [a, b] of pairs) off[i++] = Math.abs(at(a!, error) - at(b!, error));
  }
  return quantile(off, 0.95);
}

const between = (low: number, high: number, random: SeededRandom) => low + (high - low) * random.uniform();

function ofChannels<Of>(values: readonly Of[]): ResponseChannels<Of> {
  return { red: values[0]!, green: values[1] ?? values[0]!, blue: values[2] ?? values[0]! };
}
