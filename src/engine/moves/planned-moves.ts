import { isBelieved } from '../diagnosis/causes.ts';
import { limitStops } from '../diagnosis/limit-stops.ts';
import type { SetReading } from '../lamps/set-reading.ts';
import { spreadSpots } from '../lamps/spread-spots.ts';
import type { Reading } from '../reading.ts';
import { cautionForDiffusion } from './cautions.ts';
import { BLOCKED_EV } from './change-made.ts';
import { evenColours } from './even-colours.ts';
import { expose } from './expose.ts';
import { frameTighter } from './frame-tighter.ts';
import type { Move } from './move.ts';
import type { MovesInput } from './moves-input.ts';
import { type PlannedLights, plannedLights } from './planned-lights.ts';
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
/** The model's own ± of a spread to come, beside what the likely sets say. Own choice, after seeded studios. */
const MODEL_EV = 0.03;

/**
 * Plans with the model of the set: exposure first, since it decides what the next take can show; spill out; lights
 * and sheet; the lights' colours; white balance once they are alike; and, for whoever cannot move anything, the part
 * of the frame that is even enough. `null` where no set with lights is believed.
 */
export function plannedMoves(input: MovesInput): PlannedMoves | null {
  const { set, measurement, verdict } = input;
  if (set === null || set.lights.length === 0 || !isBelieved(input)) return null;
  const spill = blockSpill(input, set);
  const plan = verdict.even === 'yes' ? null : planOf(input, set, spill !== null);
  const moves = [
    expose(input),
    spill,
    ...(plan === null ? [] : [...plan.sheet, ...plan.lights.moves]),
    evenColours(input),
    whiteBalance(input),
    frameTighter(input),
  ].filter((move) => move !== null);
  if (plan === null) return { moves, predicted: null };
  const { spread, tintDeltaUv } = plan.lights;
  const plusMinusEv = Math.hypot(spread.plusMinus, measurement.falloff.plusMinusEv, MODEL_EV);
  return { moves, predicted: { spreadEv: spread.value, plusMinusEv, tintDeltaUv } };
}

interface Plan {
  readonly lights: PlannedLights;
  readonly sheet: readonly Move[];
}

/** `null` where no change of lights and sheet promises more than it may be off by: the light is left as it is. */
function planOf(
  { measurement, setup, tolerance }: MovesInput,
  set: SetReading,
  isBlocked: boolean,
): Plan | null {
  const spots = spreadSpots(measurement);
  const enoughEv = WITHIN_TOLERANCE * limitStops(tolerance);
  const spillEv = isBlocked ? BLOCKED_EV : 0;
  const alone = plannedLights(set.sets, spots, setup, enoughEv, { spillEv });
  const isEnough = alone.spread.value < enoughEv || setup.arrangement !== 'behind-sheet';
  const doubled = isEnough
    ? null
    : plannedLights(set.sets, spots, setup, enoughEv, { spillEv, isDoubled: true });
  const broughtEv = doubled === null ? 0 : alone.spread.value - doubled.spread.value;
  const sheet: Move = {
    kind: 'add-diffusion',
    bringsEv: broughtEv,
    toward: null,
    caution: cautionForDiffusion(setup.light),
  };
  const plan =
    doubled !== null && broughtEv > LEAST_OF_SHEET_EV
      ? { lights: doubled, sheet: [sheet] }
      : { lights: alone, sheet: [] };
  const { gain } = plan.lights;
  return gain.value > Math.max(gain.plusMinus, LEAST_GAIN_EV) ? plan : null;
}

/** Puts spill out where it was told: by what the frames say of its colour, or by one with the lights off. */
function blockSpill({ findings }: MovesInput, { spill }: SetReading): Move | null {
  const told = findings.find(({ kind, confidence }) => kind === 'stray-light' && confidence > 0.5);
  if (told === undefined) return null;
  return { kind: 'block-stray', fromDeg: spill.fromDeg, bringsEv: told.ev, toward: null, caution: null };
}
