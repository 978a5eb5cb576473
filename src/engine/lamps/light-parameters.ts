import type { Setup } from '../setup.ts';
import { above0 } from './above-0.ts';
import type { KnownLengths } from './known-lengths.ts';
import type { SetLight, SourceColour } from './lit-set.ts';
import type { NextParameter } from './parameters.ts';

/** Lights are set up before the middle, mostly. */
const USUALLY_OFF_CENTRE = 0.12;

/** Two lights stand about alike on either side: half of what is between them, and how far that differs (logarithm). */
const HALF_APART = [0.85, 0.3] as const;
const USUALLY_HIGHER = 0.06;

/** Heads are aimed by eye; of one set they are nearly alike in power and colour. */
const USUALLY_AIMED_OFF = 0.08;
/** A light farther aside than this, in frame widths, or aimed so far, would light next to nothing of the frame. */
const MOST_ASIDE = { most: 1.6 } as const;
const USUALLY_UNEQUAL_EV = 0.2;
const USUALLY_UNEQUAL_MIRED = 5;
const USUALLY_UNEQUAL_DUV = 0.001;

/**
 * The lights of an arrangement, each figure asked of `next`. Expected figures are own choices after usual sets
 * (common practice, no published source).
 */
export function lightParameters(
  arrangement: Exclude<Setup['arrangement'], 'panel'>,
  lengths: KnownLengths,
  colourOfFrame: SourceColour,
  next: NextParameter,
): SetLight[] {
  const colour = {
    mired: next('light 0 mired', colourOfFrame.mired, 40),
    duv: next('light 0 duv', colourOfFrame.duv, 0.006),
  };
  const radius = lengths.lampRadius();
  const beamPower = above0(next('beam', 1.8, 1.3), 0.2);
  const beamEdge = {
    angleRad: Math.exp(next('beam edge', Math.log((65 * Math.PI) / 180), 0.45)),
    steepness: Math.exp(next('edge steepness', Math.log(8), 0.5)),
  };
  const levelEv = next('light 0 level', 0, 10);
  const light = (lamp: number, x: number, y: number, aim: readonly [number, number]): SetLight => {
    const distance = lengths.lampDistance(lamp);
    // the level it throws before itself is what the frame tells; a change of distance leaves that alone
    const level = lamp === 0 ? levelEv : levelEv + next.rarely('light 1 level', USUALLY_UNEQUAL_EV);
    return {
      x,
      y,
      distance,
      aimX: aim[0] + next.rarely(`light ${lamp} aim right`, USUALLY_AIMED_OFF, MOST_ASIDE),
      aimY: aim[1] + next.rarely(`light ${lamp} aim down`, USUALLY_AIMED_OFF, MOST_ASIDE),
      face: { kind: 'disc', radius },
      beamPower,
      beamEdge,
      strengthEv: level + 2 * Math.log2(distance),
      colour:
        lamp === 0
          ? colour
          : {
              mired: colour.mired + next.rarely('light 1 mired', USUALLY_UNEQUAL_MIRED),
              duv: colour.duv + next.rarely('light 1 duv', USUALLY_UNEQUAL_DUV),
            },
    };
  };
  if (arrangement !== 'two-lamps') {
    const x = next.rarely('light 0 right', USUALLY_OFF_CENTRE, MOST_ASIDE);
    const y = next.rarely('light 0 down', USUALLY_OFF_CENTRE, MOST_ASIDE);
    return [light(0, x, y, [x, y])]; // it looks straight at the background
  }
  const middle = next.rarely('middle right', USUALLY_OFF_CENTRE, MOST_ASIDE);
  const half = Math.exp(next('half apart', Math.log(HALF_APART[0]), HALF_APART[1]));
  const down = next.rarely('middle down', USUALLY_OFF_CENTRE, MOST_ASIDE);
  const higher = next.rarely('right light down', USUALLY_HIGHER);
  const toMiddle = [0, 0] as const;
  return [light(0, middle - half, down - higher, toMiddle), light(1, middle + half, down + higher, toMiddle)];
}
