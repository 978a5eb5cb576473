import type { SeededRandom } from '../../../src/engine/numeric/seeded-random.ts';

/**
 * How far hands at a set miss what they were told: a share of the way, and what no way is too short for. These are
 * bounds: each miss is drawn evenly from none to all of it, either way.
 */
const SLIDE_SHARE = 0.05;
const SLIDE_MM = 6;
const TURN_DEG = 2;
/** Of a gel's shift: sold under one name they differ. */
const GEL_SHARE = 0.12;
/** Of the room's light, once it was blocked. */
const MOST_LEFT_OF_SPILL = 0.3;

/** A person who does what a move asks for, nearly. */
export interface Hands {
  /** Where a slide of that length lands along its way: within ±5 % and ±6 mm of it. */
  slidMm(askedMm: number): number;
  /** How far a head is turned that was to turn so far: within ±2°. */
  turnedDeg(askedDeg: number): number;
  /** What a gel of a nominal shift really shifts: within ±12 %. */
  gelMired(nominalMired: number): number;
  /** Share of the room's light that is left once it was blocked: none to 30 %. */
  leftOfSpill(): number;
}

export function handsFrom(random: SeededRandom): Hands {
  const off = (most: number) => most * (2 * random.uniform() - 1);
  return {
    slidMm: (askedMm) => askedMm * (1 + off(SLIDE_SHARE)) + off(SLIDE_MM),
    turnedDeg: (askedDeg) => askedDeg + off(TURN_DEG),
    gelMired: (nominalMired) => nominalMired * (1 + off(GEL_SHARE)),
    leftOfSpill: () => MOST_LEFT_OF_SPILL * random.uniform(),
  };
}

/** A spot on the background, mm about the frame's middle, and how far in front of it or behind. */
export interface Stand {
  readonly xMm: number;
  readonly yMm: number;
  readonly distanceMm: number;
}

export interface Spot {
  readonly xMm: number;
  readonly yMm: number;
}

/**
 * Where a head that stands at `stand` and should aim at `wanted` comes to aim: turned by up to 2° too much or too
 * little both ways, which is the farther off on the background the more slantwise it strikes.
 */
export function aimedBy(hands: Hands, stand: Stand, wanted: Spot): Spot {
  const turned = (alongMm: number) => {
    const askedDeg = (Math.atan2(alongMm, stand.distanceMm) * 180) / Math.PI;
    return stand.distanceMm * Math.tan((hands.turnedDeg(askedDeg) * Math.PI) / 180);
  };
  return {
    xMm: stand.xMm + turned(wanted.xMm - stand.xMm),
    yMm: stand.yMm + turned(wanted.yMm - stand.yMm),
  };
}
