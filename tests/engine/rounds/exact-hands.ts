import type { Hands } from '../../synthetic/random/hands.ts';

/** Hands that miss nothing, and leave a tenth of spill that they block. */
export const EXACT_HANDS: Hands = {
  slidMm: (mm) => mm,
  turnedDeg: (deg) => deg,
  gelMired: (mired) => mired,
  leftOfSpill: () => 0.1,
};
