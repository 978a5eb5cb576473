import type { SecondFrameRole } from '../lamps/second-frame.ts';
import type { SetReading } from '../lamps/set-reading.ts';
import type { Finding } from '../reading.ts';
import type { DiagnosisInput } from './diagnosis-input.ts';
import { stopsInWords } from './figures-in-words.ts';

/** A lens check that the set leaves off by more than this, and than this part of the spread, is of another set. Own choice. */
const MOST_LEFT_OVER_EV = 0.03;
const MOST_OF_SPREAD = 0.05;

const CHECK: Record<SecondFrameRole['kind'], string> = {
  shifted: 'with the camera slid',
  'stopped-down': 'with the lens stopped down',
  'lamp-off': 'with the lights off',
};

/**
 * A second frame that does not go with the blank one: slid another way than entered, or with something moved between
 * them. `null` where all go together; a frame of the room's light is never held to its exact shape.
 */
export function misfittingFrame({
  set,
  measurement,
}: Pick<DiagnosisInput, 'set' | 'measurement'>): Finding | null {
  const most = Math.max(MOST_LEFT_OVER_EV, MOST_OF_SPREAD * measurement.falloff.spreadEv);
  const misfit = set?.secondFrames.find(isMisfit(most));
  if (misfit === undefined) return null;
  return {
    kind: 'cannot-tell',
    confidence: 1,
    ev: null,
    mired: null,
    at: null,
    says: `The second frame ${CHECK[misfit.kind]} does not go with the blank one: they are off by ${stopsInWords(misfit.leftOverEv)} on average. See which way and how far the camera was slid, and that nothing else was moved, or leave that frame out.`,
    lengthsMm: null,
  };
}

const isMisfit = (most: number) => (each: SetReading['secondFrames'][number]) =>
  each.kind !== 'lamp-off' && each.leftOverEv > most;
