import { type Setup, UNKNOWN_SETUP } from '../../src/engine/setup.ts';

/** What a plan is drawn into. */
export const ROOM = { width: 300, height: 500 };

/** A set-up whose lengths are all known, and two lights before a background of the same size. */
export const KNOWN: Setup = {
  ...UNKNOWN_SETUP,
  frameWidthMm: 400,
  lampDistanceMm: [600],
  lampWidthMm: 200,
  cameraDistanceMm: 900,
};
export const FRONT: Setup = { ...KNOWN, arrangement: 'two-lamps', lampDistanceMm: [600, 600] };
