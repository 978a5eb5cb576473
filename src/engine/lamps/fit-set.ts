import { choleskySolve } from '../numeric/cholesky-solve.ts';
import { leastSquares } from '../numeric/least-squares.ts';
import type { LitSet } from './lit-set.ts';
import { emptySampleLight, sampleLighter } from './sample-light.ts';
import type { SetModel } from './set-model.ts';
import type { SetSamples } from './set-samples.ts';

/** A set fitted to a frame, and what else the frame would bear. */
export interface FittedSet {
  readonly model: SetModel;
  /** Best point, in standard deviations from what is expected. */
  readonly point: Float64Array;
  readonly set: LitSet;
  /** Covariance of the point, row-major. */
  readonly covariance: Float64Array;
  /** Root mean square of what is left over. */
  readonly leftOver: SampleError;
  /** What the fit took a sample to err by. */
  readonly error: SampleError;
  /** Half the sum of squares at the best point, samples erring by so much: less is likelier. */
  readonly costAt: (error: SampleError) => number;
}

/** In stops and in u′v′. */
export interface SampleError {
  readonly ev: number;
  readonly uv: number;
}

/**
 * Neighbouring samples err together, by what the model leaves out: so many count as independent. Own choice, after
 * the coverage of places over seeded studios.
 */
const INDEPENDENT_SAMPLES = 90;

/** No frame bears a set out better than this: real beams, sheets and lenses are not the model's. Own choice. */
const LEAST_ERROR: SampleError = { ev: 0.003, uv: 0.00006 };

/** A first guess, before anything was fitted. */
const FIRST_ERROR: SampleError = { ev: 0.03, uv: 0.0006 };

const THINNING = 4;
const SCOUTING_ROUNDS = 8;
const SETTLING_ROUNDS = 12;

/**
 * Fits a family of sets to a frame: every parameter with its expectation, frame and expectations as one least-squares
 * problem, from several starts. The error of a sample is what the best fit leaves over, so that a frame that no set
 * of the family explains has a large ±.
 */
export function fitSet(model: SetModel, samples: SetSamples, starts: readonly Float64Array[]): FittedSet {
  const scouting = misfit(model, thinned(samples), FIRST_ERROR);
  const scouts = starts.map((start) =>
    leastSquares(scouting.residuals, start, scouting.length, SCOUTING_ROUNDS),
  );
  const best = scouts.reduce((least, each) => (each.cost < least.cost ? each : least));
  const settling = misfit(model, samples, FIRST_ERROR);
  const settled = leastSquares(settling.residuals, best.point, settling.length, SETTLING_ROUNDS);
  const first = settling.leftOver(settled.point);
  const error = { ev: Math.max(first.ev, LEAST_ERROR.ev), uv: Math.max(first.uv, LEAST_ERROR.uv) };
  const finishing = misfit(model, samples, error);
  const final = leastSquares(finishing.residuals, settled.point, finishing.length, SETTLING_ROUNDS);
  return {
    model,
    point: final.point,
    set: model.setAt(final.point),
    covariance: inverse(final.information, final.point.length),
    leftOver: finishing.leftOver(final.point),
    error,
    costAt: (other) => {
      const { residuals, length } = misfit(model, samples, other);
      const values = new Float64Array(length);
      residuals(final.point, values);
      return values.reduce((sum, value) => sum + value * value, 0) / 2;
    },
  };
}

/** How far a point of the family is from samples that err by so much, and from what is expected of it. */
function misfit(model: SetModel, samples: SetSamples, error: SampleError) {
  const count = samples.x.length;
  const lighter = sampleLighter(samples);
  const light = emptySampleLight(count);
  const shares = Math.sqrt(Math.max(1, count / INDEPENDENT_SAMPLES));
  const [perEv, perUv] = [1 / (error.ev * shares), 1 / (error.uv * shares)];
  return {
    length: 3 * count + model.parameters.length,
    residuals(point: Float64Array, into: Float64Array): void {
      lighter(model.setAt(point), light);
      for (let i = 0; i < count; i++) {
        into[i] = (light.ev[i]! - samples.ev[i]!) * perEv;
        into[count + i] = (light.uPrime[i]! - samples.uPrime[i]!) * perUv;
        into[2 * count + i] = (light.vPrime[i]! - samples.vPrime[i]!) * perUv;
      }
      into.set(point, 3 * count);
    },
    leftOver(point: Float64Array): SampleError {
      lighter(model.setAt(point), light);
      let [ev, uv] = [0, 0];
      for (let i = 0; i < count; i++) {
        ev += (light.ev[i]! - samples.ev[i]!) ** 2;
        uv += (light.uPrime[i]! - samples.uPrime[i]!) ** 2 + (light.vPrime[i]! - samples.vPrime[i]!) ** 2;
      }
      return { ev: Math.sqrt(ev / count), uv: Math.sqrt(uv / (2 * count)) };
    },
  };
}

/** A quarter of the samples, spread over the frame: enough to tell one valley from another. */
function thinned(each: SetSamples): SetSamples {
  const thin = (values: Float64Array) => values.filter((_, i) => i % THINNING === 0);
  return {
    ...each,
    x: thin(each.x),
    y: thin(each.y),
    ev: thin(each.ev),
    uPrime: thin(each.uPrime),
    vPrime: thin(each.vPrime),
  };
}

/**
 * Where the search begins: as expected, with each light towards the hottest spot and beyond it, with spill of either
 * colour, and with a rim at the darkest side.
 */
export function startingPoints(
  model: SetModel,
  hottest: { readonly x: number; readonly y: number },
  darkestSide: 'left' | 'right' | 'top' | 'bottom',
): Float64Array[] {
  const has = (wanted: string) => model.parameters.some(({ name }) => name === wanted);
  const at = (places: Readonly<Record<string, number>>) =>
    Float64Array.from(model.parameters, ({ name, expected, deviation }) => {
      const wanted = places[name];
      return wanted === undefined ? 0 : (wanted - expected) / deviation;
    });
  const rim = has('rim left') ? [at({ [`rim ${darkestSide}`]: 0.05 })] : [];
  const warmSpill = { 'spill level': Math.log2(0.12), 'spill mired': 120 };
  const coolSpill = { 'spill level': Math.log2(0.12), 'spill mired': -60 };
  if (has('light 1 right'))
    return [
      at({}),
      at({ 'light 0 right': -0.5, 'light 1 right': 0.5 }),
      at({ 'light 0 right': -1.4, 'light 1 right': 1.4 }),
      at(warmSpill),
      at(coolSpill),
    ];
  if (!has('light 0 right')) return [at({}), ...rim, at(warmSpill), at(coolSpill)];
  const toHottest = { 'light 0 right': hottest.x, 'light 0 down': hottest.y };
  const beyond = { 'light 0 right': 2 * hottest.x, 'light 0 down': 2 * hottest.y };
  return [
    at(toHottest),
    at(beyond),
    ...rim,
    at({ ...toHottest, ...warmSpill }),
    at({ ...toHottest, ...coolSpill }),
  ];
}

function inverse(matrix: Float64Array, size: number): Float64Array {
  const result = new Float64Array(size * size);
  for (let column = 0; column < size; column++) {
    const unit = new Float64Array(size);
    unit[column] = 1;
    const solved = choleskySolve(matrix, unit);
    for (let row = 0; row < size; row++) result[row * size + column] = solved[row]!;
  }
  return result;
}
