import { isBelieved } from '../diagnosis/causes.ts';
import { limitStops } from '../diagnosis/limit-stops.ts';
import type { Estimate } from '../lamps/estimate.ts';
import {
  changedSet,
  type LightChange,
  NO_CHANGE,
  NOTHING_CHANGED,
  type SetChange,
} from '../lamps/light-change.ts';
import type { SetReading } from '../lamps/set-reading.ts';
import { spreadTaker } from '../lamps/set-spread.ts';
import { spreadSpots } from '../lamps/spread-spots.ts';
import { mean } from '../numeric/mean.ts';
import type { Reading } from '../reading.ts';
import { cautionForBlocking, cautionForDiffusion } from './cautions.ts';
import { BLOCKED_EV } from './change-made.ts';
import { evenColours } from './even-colours.ts';
import { expose } from './expose.ts';
import { frameTighter } from './frame-tighter.ts';
import type { Move } from './move.ts';
import type { MovesInput } from './moves-input.ts';
import { pickedEvenly } from './picked-evenly.ts';
import { type PlannedLights, plannedLights } from './planned-lights.ts';
import { stoppedLights } from './stopped-lights.ts';
import { isTintedUnevenly } from './tinted-unevenly.ts';
import { whiteBalance } from './white-balance.ts';

/** The moves that the model of the set advises, and what all of them together will leave. */
export interface PlannedMoves {
  readonly moves: readonly Move[];
  readonly predicted: Reading['predicted'];
}

/** What is planned is to stay so far within the tolerance that hands and ± do not take it out again. Own choice. */
const WITHIN_TOLERANCE = 0.8;
/** A second sheet costs a stop of light and an hour's work: it is advised where it brings more than this. Own choice. */
const LEAST_OF_SHEET_EV = 0.15;
/** Less than this is not worth setting up again, in stops. Own choice. */
const LEAST_GAIN_EV = 0.02;
/** Few spots do for a search: the light of a set is smooth, and the outermost cells are among them. */
const SEARCHED_ACROSS = 7;
/** Sets that a gel's worth is told from. */
const TINT_SETS = 12;
/** What half of its ± leaves of a gain is a good deal, in stops. Own choice. */
const GOOD_GAIN_EV = 0.05;
/** The model's own ± of a spread to come, beside what the likely sets say. Own choice, after seeded studios. */
const MODEL_EV = 0.03;

/**
 * Plans with the model of the set: exposure first, since it decides what the next take can show; spill out; lights
 * and sheet; the lights' colours; white balance once they are alike; and, for whoever cannot move anything, the part
 * of the frame that is even enough. `null` where no set with lights is believed, and where clipping hides falloff.
 */
export function plannedMoves(input: MovesInput): PlannedMoves | null {
  const { set, measurement, verdict } = input;
  if (set === null || set.lights.length === 0 || !isBelieved(input)) return null;
  if (measurement.falloff.isLowerBound) return null; // nobody knows how much more it falls off
  // what is even enough, and of one colour, is left alone
  const isTinted = isTintedUnevenly(input);
  const spill = verdict.even === 'yes' && !isTinted ? null : blockSpill(input, set);
  const gel = isTinted ? evenColours(input, gelLessensTint(input, set)) : null;
  // without spill the light falls off otherwise: what was even with it need not be so any more
  const beside = { spillEv: spill === null ? 0 : BLOCKED_EV, lights: gelled(set, gel) };
  const plan = verdict.even === 'yes' && spill === null ? null : planOf(input, set, beside);
  const isWorthIt =
    plan !== null && !isWithin(plan.lights.without.spread, input) && promisesMore(plan.lights.gain);
  const moves = [
    expose(input),
    spill,
    ...(isWorthIt ? [...plan.sheet, ...plan.lights.moves] : []),
    gel,
    whiteBalance(input, { isTintToBeCured: spill !== null || gel !== null }),
    frameTighter(input),
  ].filter((move) => move !== null);
  if (plan === null || (!isWorthIt && spill === null)) return { moves, predicted: null };
  const { spread, tintDeltaUv } = isWorthIt ? plan.lights : plan.lights.without;
  const { plusMinusEv: ownEv } = measurement.falloff;
  const plusMinusEv = Math.hypot(spread.plusMinus, ownEv, MODEL_EV, input.doubtEv?.(spread.value) ?? 0);
  return { moves, predicted: { spreadEv: spread.value, plusMinusEv, tintDeltaUv } };
}

/** So much of the tint has to be left at most. Own choice. */
const LESSENED = 0.85;

/** Whether a gel on a light makes the frame's tint less, as likely sets have it. */
function gelLessensTint({ measurement }: MovesInput, { sets, lights }: SetReading) {
  return (lamp: number, mired: number): boolean => {
    const likely = pickedEvenly(sets, TINT_SETS);
    const tint = spreadTaker(spreadSpots(measurement, SEARCHED_ACROSS));
    const gelled = lights.map((_, i) => (i === lamp ? { ...NO_CHANGE, mired } : NO_CHANGE));
    const after = likely.map((set) => tint(changedSet(set, { ...NOTHING_CHANGED, lights: gelled })).deltaUv);
    return mean(after) < LESSENED * mean(likely.map((set) => tint(set).deltaUv));
  };
}

/** What a gel changes at the lights, so that what is foretold is of all moves together. */
function gelled({ lights }: SetReading, gel: Move | null): LightChange[] {
  if (gel?.kind !== 'gel') return [];
  const { lamp, miredShift: mired, duvShift: duv } = gel;
  return lights.map((_, i) => (i === lamp ? { ...NO_CHANGE, mired, duv } : NO_CHANGE));
}

/** Whether a spread to come is surely within the tolerance, so that nothing more need be moved. */
const isWithin = ({ value, plusMinus }: Estimate, { tolerance }: MovesInput): boolean =>
  value + plusMinus < limitStops(tolerance);

/** Whether a change promises more than it may be off by, or surely enough a good deal; else the light is left. */
function promisesMore({ value, plusMinus }: Estimate): boolean {
  return value > LEAST_GAIN_EV && (value > plusMinus || value - plusMinus / 2 > GOOD_GAIN_EV);
}

interface Plan {
  readonly lights: PlannedLights;
  readonly sheet: readonly Move[];
}

function planOf(
  { measurement, setup, tolerance, earlierTakes = [] }: MovesInput,
  set: SetReading,
  beside: Pick<SetChange, 'spillEv' | 'lights'>,
): Plan {
  const stopped = stoppedLights(earlierTakes, set.lights.length);
  const spots = { searched: spreadSpots(measurement, SEARCHED_ACROSS), told: spreadSpots(measurement) };
  const enoughEv = WITHIN_TOLERANCE * limitStops(tolerance);
  const alone = plannedLights(set.sets, spots, setup, enoughEv, beside, stopped);
  const isEnough = alone.spread.value < enoughEv || setup.arrangement !== 'behind-sheet';
  if (isEnough || !mayBeHot(set)) return { lights: alone, sheet: [] };
  const besideSheet = { ...beside, isDoubled: true };
  const doubled = plannedLights(set.sets, spots, setup, enoughEv, besideSheet, stopped);
  if (alone.spread.value - doubled.spread.value < LEAST_OF_SHEET_EV) return { lights: alone, sheet: [] };
  const caution = cautionForDiffusion(setup.light);
  const bringsEv = doubled.sheetBringsEv;
  return { lights: doubled, sheet: [{ kind: 'add-diffusion', bringsEv, toward: null, caution }] };
}

/** Whether a second sheet could bring anything: only where the first lets light straight through. */
function mayBeHot({ causes }: SetReading): boolean {
  return causes.some(({ cause, ev }) => cause === 'hot-spot' && ev > LEAST_OF_SHEET_EV / 2);
}

/** Puts spill out where it was told: by what the frames say of its colour, or by one with the lights off. */
function blockSpill({ findings, setup }: MovesInput, { spill }: SetReading): Move | null {
  const told = findings.find(({ kind, confidence }) => kind === 'stray-light' && confidence > 0.5);
  if (told === undefined) return null;
  return {
    ...{ kind: 'block-stray', fromDeg: spill.fromDeg },
    ...{ bringsEv: told.ev, toward: null, caution: cautionForBlocking(setup.light) },
  };
}
