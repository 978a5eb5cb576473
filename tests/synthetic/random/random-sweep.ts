import { seededRandom } from '../../../src/engine/numeric/seeded-random.ts';
import type { Setup } from '../../../src/engine/setup.ts';
import type { Background, StudioLamp, StudioSet } from '../studio/studio-set.ts';
import { type Draws, drawsFrom } from './draws.ts';
import { enteredSetup } from './entered-setup.ts';
import { goodPractice } from './good-practice.ts';
import { plantAimedOff, plantOffCentre, plantTooClose, plantUnequalLamps } from './plant-lamps.ts';
import { withLittleSpill } from './plant-spill.ts';
import type { CauseFacts } from './planted-cause.ts';
import type { Planter } from './planter.ts';
import { spreadEv } from './spread-ev.ts';
import { isInShot } from './within-room.ts';

type Sweep = Extract<Background, { kind: 'sweep' }>;

/** Two lights on a wall that curves towards the camera below, with at most one fault, and what is known of it. */
export interface RandomSweep {
  readonly seed: number;
  readonly set: StudioSet & { readonly background: Sweep };
  readonly setup: Setup;
  /** Where the curve begins, as a share of the frame's height from its top: 1 or more is out of the frame. */
  readonly curveBeginsAt: number;
  readonly fault: CauseFacts | null;
  readonly spreadEv: number;
}

const ATTEMPTS = 80;
/** More than this no one would photograph. */
const MOST_SPREAD_EV = 3;
const FAULTS = [plantOffCentre, plantTooClose, plantAimedOff, plantUnequalLamps, null] as const;

/** Draws two lights on a sweep; every second set's curve crosses the frame's lower part. The same seed, the same set. */
export function randomSweep(seed: number): RandomSweep {
  // drawn once, so that a fault is not the rarer for being the harder to keep out of shot
  const plant = drawsFrom(seededRandom(seed ^ 0x77a1)).either(FAULTS);
  for (let attempt = 0; attempt < ATTEMPTS; attempt++) {
    const draws = drawsFrom(seededRandom((Math.imul(seed, 0x85eb) ^ 0x5eed) + attempt));
    const sweep = attemptAt(seed, plant, draws);
    if (sweep) return sweep;
  }
  throw new Error(`seed ${seed}: no two lights clear of the sweep and out of shot`);
}

function attemptAt(seed: number, plant: Planter | null, draws: Draws): RandomSweep | null {
  const { between, either, chance } = draws;
  const light = either(['flash', 'continuous'] as const);
  const plain = goodPractice(
    { arrangement: 'two-lamps', light, aspect: either([2 / 3, 3 / 4, 3 / 2]) },
    draws,
  );
  const planted = plant?.(plain, draws, chance(0.7)) ?? null;
  const lit = planted?.set ?? plain;
  const curveBeginsAt = seed % 2 === 0 ? between(0.6, 0.92) : between(1, 1.6);
  const background: Sweep = {
    kind: 'sweep',
    curvesAtYMm: (curveBeginsAt - 0.5) * lit.frameHeightMm,
    radiusMm: lit.frameWidthMm * between(0.25, 0.9),
  };
  const set = { ...withLittleSpill({ ...lit, background }, draws), background };
  const stands = set.lamps.every((lamp) => isClearOf(background, lamp) && !isInShot(set, lamp));
  if (!stands) return null;
  const spread = spreadEv(set);
  if (spread > MOST_SPREAD_EV) return null;
  const setup = enteredSetup(set, { arrangement: 'two-lamps', light }, draws);
  return { seed, set, setup, curveBeginsAt, fault: planted?.facts ?? null, spreadEv: spread };
}

/** Whether a ball round a light's face stays in front of the wall, inside the curve and above the floor. */
function isClearOf({ curvesAtYMm, radiusMm }: Sweep, { yMm, distanceMm, face }: StudioLamp): boolean {
  const reachMm = face.kind === 'disc' ? face.diameterMm / 2 : Math.hypot(face.widthMm, face.heightMm) / 2;
  const downMm = yMm - curvesAtYMm;
  if (downMm <= 0 || distanceMm >= radiusMm) return distanceMm > reachMm && radiusMm - downMm > reachMm;
  return radiusMm - Math.hypot(downMm, distanceMm - radiusMm) > reachMm;
}
