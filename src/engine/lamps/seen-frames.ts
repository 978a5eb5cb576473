import { type EarlierTake, setAtTake } from './earlier-take.ts';
import type { LitSet } from './lit-set.ts';
import type { SecondFrame, SecondFrameRole } from './second-frame.ts';
import type { SetSamples } from './set-samples.ts';
import { slidSet } from './slid-set.ts';

/** One frame of a set as its fit sees it. */
export interface SeenFrame {
  readonly samples: SetSamples;
  /** The set as it stood for that frame. */
  readonly seen: (set: LitSet) => LitSet;
  /** How far the frame's level is known against the blank one's: standard deviation in stops; `null`: it is that one. */
  readonly levelDeviationEv: number | null;
  /** To be added to its samples to stand on the blank frame's scale. */
  readonly offsetEv: number;
  /** How closely any set can follow it at best. */
  readonly leastError: SampleError;
  /** Of an earlier take: the set has been changed since. */
  readonly isEarlier: boolean;
  /** Neighbouring samples err together, by what the model leaves out: so many count as independent. */
  readonly independentSamples: number;
}

/** In stops and in u′v′. */
export interface SampleError {
  readonly ev: number;
  readonly uv: number;
}

/** No frame bears a set out better than this: real beams, sheets and lenses are not the model's. Own choice. */
const LEAST_ERROR: SampleError = { ev: 0.003, uv: 0.00006 };

/** Own choice, after the coverage of places over seeded studios. */
const INDEPENDENT_SAMPLES = 90;

/** A room's light is no such simple slope as the model's: its level and colour count, not its exact shape. Own choice. */
const LEAST_ERROR_OF_ROOM: SampleError = { ev: 0.05, uv: 0.001 };
const INDEPENDENT_IN_ROOM = 6;

/** Marked shutter times and apertures are off by about so much, and lamps of a room waver. Own allowance. */
const SAME_EXPOSURE_DEVIATION_EV = 0.02;
const OTHER_EXPOSURE_DEVIATION_EV = 0.06;
/** A lens check is compared by its shape: whatever was opened or closed for it does not count. */
const ANY_EXPOSURE_DEVIATION_EV = 3;

/** Of an earlier take only the shape counts. */
const ANY_POWER_DEVIATION_EV = 10;

/** Mechanical vignetting is gone two stops down (common practice, no published source). */
const STOPS_UNTIL_CLEAR = 2;

/**
 * The blank frame first, then those that tell what it cannot, then those of earlier takes. What those show of
 * the light's level and of the colour that all of it shares does not count: power and white balance may have been set
 * anew for a light that was moved.
 */
export function seenFrames(
  blank: SetSamples,
  secondFrames: readonly SecondFrame[],
  earlierTakes: readonly EarlierTake[] = [],
  frameWidthMm: number | null = null,
): SeenFrame[] {
  const first: SeenFrame = {
    samples: blank,
    seen: (set) => set,
    levelDeviationEv: null,
    offsetEv: 0,
    leastError: LEAST_ERROR,
    isEarlier: false,
    independentSamples: INDEPENDENT_SAMPLES,
  };
  return [
    first,
    ...secondFrames.map(({ role, samples }): SeenFrame => {
      const exposedMore = (samples.exposureEv ?? 0) - (blank.exposureEv ?? 0);
      const areBothKnown = samples.exposureEv !== null && blank.exposureEv !== null;
      // where a file does not say, the frames count as exposed alike: that is what is asked for
      const offsetEv = samples.levelEv - blank.levelEv - (areBothKnown ? exposedMore : 0);
      const alike = !areBothKnown || Math.abs(exposedMore) < 0.01;
      const isRoom = role.kind === 'lamp-off';
      const deviation = alike ? SAME_EXPOSURE_DEVIATION_EV : OTHER_EXPOSURE_DEVIATION_EV;
      return {
        samples,
        seen: (set) => seenAs(set, role),
        levelDeviationEv: isRoom ? deviation : ANY_EXPOSURE_DEVIATION_EV,
        offsetEv,
        leastError: isRoom ? LEAST_ERROR_OF_ROOM : LEAST_ERROR,
        isEarlier: false,
        independentSamples: isRoom ? INDEPENDENT_IN_ROOM : INDEPENDENT_SAMPLES,
      };
    }),
    ...earlierTakes.map(
      ({ samples }, i): SeenFrame => ({
        samples,
        seen: setAtTake(earlierTakes, i, frameWidthMm),
        levelDeviationEv: ANY_POWER_DEVIATION_EV,
        offsetEv: 0,
        leastError: LEAST_ERROR,
        isEarlier: true,
        independentSamples: INDEPENDENT_SAMPLES,
      }),
    ),
  ];
}

/** The set as it stood for a second frame. */
function seenAs(set: LitSet, role: SecondFrameRole): LitSet {
  if (role.kind === 'lamp-off') return { ...set, lights: [], panel: null };
  if (role.kind === 'shifted') return slidSet(set, role.rightFrameWidths, role.downFrameWidths);
  if (set.lens === null) return set;
  const left = Math.max(0, 1 - role.stops / STOPS_UNTIL_CLEAR);
  return { ...set, lens: { ...set.lens, fourthEv: set.lens.fourthEv * left } };
}
