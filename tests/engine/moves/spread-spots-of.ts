import { spreadSpots } from '../../../src/engine/lamps/spread-spots.ts';
import { measurementOf } from '../diagnosis/measurement-of.ts';

/** Spots over the whole of a 3 : 2 frame. */
export const SPOTS = spreadSpots(measurementOf({ ev: () => 0 }));
