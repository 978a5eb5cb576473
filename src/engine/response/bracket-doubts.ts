import { type SeededRandom, seededRandom } from '../numeric/seeded-random.ts';
import { badBracket, SHOOT_AGAIN } from './bracket-shot.ts';
import { SPLINES } from './curve-prior.ts';
import { drawnParameters, type FittedCurve, type WeighedCurves, weighCurves } from './fit-curve.ts';
import type { RecoveredCurves } from './recover-curves.ts';
import type { UsableFrames } from './usable-frames.ts';

/** A place strays where its light is off by this, in stops and in codes, and by more than the other places scatter. */
const STRAY_STOPS = 0.1;
const STRAY_CODES = 2;
/** One of 60 drawn brackets of a still scene had 6 in 100. Own choice. */
const MOST_STRAYS = 0.1;
/** Share of a frame's places from which on it is the frame that strays. */
const WHOLE_FRAME = 0.6;
/** Stops by which a frame's exposure may be off unnoticed; the ± allows for smaller slips. */
const MOST_OFF = 0.12;
/** Stops by which a channel may drift against the others. */
const MOST_DRIFT = 0.07;
/** Exposures are let go as far as this to see where they go. */
const LET_GO_STOPS = 0.15;
const SIGMAS = 4;
const DRAWS = 120;

/**
 * Refuses frames whose light does not go with what is known of their exposures.
 *
 * @throws {@link EngineError} `bad-bracket`.
 */
export function refuseDoubtful({ fits }: RecoveredCurves, { shots, stops }: UsableFrames): void {
  const strays = fits.map(({ fit }) => strayShares(fit)).reduce((a, b) => (b.ofPlaces > a.ofPlaces ? b : a));
  // what moves is in some places of any frame; a frame of other light strays in all of its own
  if (strays.ofPlaces > MOST_STRAYS && strays.ofWorstFrame < WHOLE_FRAME) refuseMoved(strays.ofPlaces);
  const off = fits.map(({ fit }) => weighCurves(fit.sums, [{ exposureEv: LET_GO_STOPS, share: 1 }]));
  const random = seededRandom(fits.length);
  const drift = off.length < 2 ? null : worstDrift(off, stops, random);
  if (drift && drift.size > MOST_DRIFT && drift.size > SIGMAS * drift.sigma)
    throw badBracket(
      `The colours drift between the frames: in ${shots[drift.frame]!.name} ${drift.name} is ${drift.size.toFixed(2)} stop off against green, by the other frames. That is what an automatic white balance does, or light of changing colour. Set a fixed white balance in the camera. ${SHOOT_AGAIN}`,
      { frame: shots[drift.frame]!.name, driftEv: drift.size },
    );
  const own = off.map((curves) => worstOf(offStops(curves, stops, random)));
  const worst = own.reduce((a, b) => (b.size > a.size ? b : a));
  if (worst.size > MOST_OFF && worst.size > SIGMAS * worst.sigma)
    throw badBracket(
      `${shots[worst.frame]!.name} shows ${worst.size.toFixed(2)} stop ${worst.isMore ? 'more' : 'less'} light than its exposure should give by the other frames: the light flickers or was changed, or the steps are not what they are held to be. Use light that does not flicker at these times, or enter the steps as they really were.`,
      { frame: shots[worst.frame]!.name, offEv: worst.size },
    );
  if (strays.ofPlaces > MOST_STRAYS) refuseMoved(strays.ofPlaces);
}

function refuseMoved(strayShare: number): never {
  throw badBracket(
    `${Math.round(100 * strayShare)} % of the places compared do not go with the exposures: something in the picture or the camera moved, or the light flickered in bands. Use a tripod and a still background, and times longer than the light’s flicker.`,
    { strayShare },
  );
}

/** Shares of the places that stray in any frame, and of those of the frame that has most. */
function strayShares({ residuals, sights }: FittedCurve): { ofPlaces: number; ofWorstFrame: number } {
  const strays = new Map<number, number>();
  const seen = new Map<number, number>();
  let places = 0;
  for (const [p, row] of residuals.entries()) {
    let isStray = false;
    for (const [s, value] of row.entries()) {
      const { frame, slope, weight } = sights[p]![s]!;
      seen.set(frame, (seen.get(frame) ?? 0) + 1);
      if (weight > 0 || Math.abs(value) <= Math.max(STRAY_STOPS, STRAY_CODES * slope)) continue;
      isStray = true;
      strays.set(frame, (strays.get(frame) ?? 0) + 1);
    }
    if (isStray) places++;
  }
  const worst = Math.max(0, ...[...strays].map(([frame, count]) => count / seen.get(frame)!));
  return { ofPlaces: places / Math.max(1, residuals.length), ofWorstFrame: worst };
}

interface Off {
  readonly mean: Float64Array;
  readonly sigma: Float64Array;
}

/** What the frames' exposures are off, less what a change of level or of all steps alike would be: that no frame tells. */
function offStops(curves: WeighedCurves, stops: readonly number[], random: SeededRandom): Off {
  const ofFrames = (parameters: Float64Array) => withoutSteps(parameters.slice(SPLINES), stops);
  const mean = ofFrames(curves.parameters);
  const squares = new Float64Array(stops.length);
  for (let draw = 0; draw < DRAWS; draw++)
    ofFrames(drawnParameters(curves, random)).forEach((value, i) => {
      squares[i]! += (value - mean[i]!) ** 2;
    });
  return { mean, sigma: squares.map((sum) => Math.sqrt(sum / DRAWS)) };
}

function worstDrift(curves: readonly WeighedCurves[], stops: readonly number[], random: SeededRandom) {
  const each = curves.map((curve) => offStops(curve, stops, random));
  const green = each[1]!;
  return [0, 2]
    .map((channel) => {
      const own = each[channel]!;
      return {
        ...worstOf({
          mean: own.mean.map((value, i) => value - green.mean[i]!),
          sigma: own.sigma.map((value, i) => Math.hypot(value, green.sigma[i]!)),
        }),
        name: channel === 0 ? 'red' : 'blue',
      };
    })
    .reduce((a, b) => (b.size > a.size ? b : a));
}

function worstOf({ mean, sigma }: Off) {
  const sizes = mean.map(Math.abs);
  const frame = sizes.indexOf(Math.max(...sizes));
  return { frame, size: sizes[frame]!, sigma: sigma[frame]!, isMore: mean[frame]! > 0 };
}

/** Takes the straight line over the steps out. */
function withoutSteps(values: Float64Array, stops: readonly number[]): Float64Array {
  const n = values.length;
  const meanStops = stops.reduce((sum, value) => sum + value, 0) / n;
  const mean = values.reduce((sum, value) => sum + value, 0) / n;
  let [along, square] = [0, 0];
  for (let i = 0; i < n; i++) {
    along += (values[i]! - mean) * (stops[i]! - meanStops);
    square += (stops[i]! - meanStops) ** 2;
  }
  const slope = square > 0 ? along / square : 0;
  return values.map((value, i) => value - mean - slope * (stops[i]! - meanStops));
}
