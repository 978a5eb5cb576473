import type { CauseShare } from '../../../src/engine/lamps/cause-shares.ts';
import type { Estimate } from '../../../src/engine/lamps/estimate.ts';
import type { FoundLight, SetReading } from '../../../src/engine/lamps/set-reading.ts';
import type { ModelledCause } from '../../../src/engine/lamps/taken-out.ts';

export const about = (value: number, plusMinus = 0.01): Estimate => ({ value, plusMinus });

/** A light found before the middle of the frame, well aimed. */
export function foundLight(changes: Partial<FoundLight> = {}): FoundLight {
  return {
    right: about(0),
    down: about(0),
    distance: about(1.2),
    rightWithDistance: 0,
    aimRight: 0,
    aimDown: 0,
    aimErrorRight: about(0),
    aimErrorDown: about(0),
    ...changes,
  };
}

export function shareOf(cause: ModelledCause, changes: Partial<CauseShare> = {}): CauseShare {
  return { cause, ev: 0.4, plusMinusEv: 0.05, deltaUv: 0, confidence: 0.9, ...changes };
}

/** What a model makes of a faultless set of one white light that it explains well. */
export function setReadingOf(changes: Partial<SetReading> = {}): SetReading {
  const lights = changes.lights ?? [foundLight()];
  const together = (of: (light: FoundLight) => Estimate) => {
    const each = lights.map(of);
    return about(
      each.reduce((sum, { value }) => sum + value, 0) / each.length,
      Math.hypot(...each.map(({ plusMinus }) => plusMinus)) / each.length,
    );
  };
  return {
    lights,
    offCentre:
      lights.length === 0
        ? null
        : { right: together(({ right }) => right), down: together(({ down }) => down) },
    secondFrames: [],
    balance: null,
    spill: { share: about(0.01, 0.002), mired: about(0), fromDeg: 0 },
    panelRise: null,
    isSpillTold: false,
    mainColour: { mired: 0, duv: 0, deltaUPrime: 0, deltaVPrime: 0 },
    tint: null,
    lensCornerEv: about(0),
    lensCornerMired: about(0),
    sets: [],
    found: [],
    isTakenApart: false,
    causes: [],
    rivals: [],
    leftOverEv: 0.004,
    leftOverUv: 0.0001,
    ...changes,
  };
}
