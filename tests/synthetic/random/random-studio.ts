import { seededRandom } from '../../../src/engine/numeric/seeded-random.ts';
import type { Setup } from '../../../src/engine/setup.ts';
import type { StudioSet } from '../studio/studio-set.ts';
import { type Draws, drawsFrom } from './draws.ts';
import { enteredSetup } from './entered-setup.ts';
import { type Arrangement, goodPractice } from './good-practice.ts';
import {
  plantCreases,
  plantHotSpot,
  plantRim,
  plantSpecks,
  plantTintAllOver,
  plantTintOnOneSide,
  plantWeave,
} from './plant-background.ts';
import { plantBands, plantLensColour, plantLensFalloff } from './plant-camera.ts';
import {
  plantAimedOff,
  plantOffCentre,
  plantTooClose,
  plantUnequalColour,
  plantUnequalLamps,
} from './plant-lamps.ts';
import { plantStrayLight, withLittleSpill } from './plant-spill.ts';
import {
  type CauseFacts,
  FINE_KINDS,
  PLANTED_KINDS,
  type PlantedCause,
  type PlantedKind,
  strength,
} from './planted-cause.ts';
import type { Planter } from './planter.ts';
import { spreadEv } from './spread-ev.ts';
import { shareEv } from './take-out.ts';

/** A set as anybody might have built it, what is wrong with it, and what its photographer knows of it. */
export interface RandomStudio {
  readonly seed: number;
  readonly set: StudioSet;
  readonly setup: Setup;
  /** Strongest first; those finer than a cell last. */
  readonly planted: readonly PlantedCause[];
  /**
   * What good practice leaves: a light that is not too close still falls off, and farther back it would do so less.
   * Where lights are off centre, aimed off or unequal, that share holds most of theirs too: distance cures them all.
   */
  readonly leftover: readonly PlantedCause[];
  readonly spreadEv: number;
  /** Height ÷ width of the frame. */
  readonly aspect: number;
}

const ARRANGEMENTS: readonly Arrangement[] = ['behind-sheet', 'bounced', 'two-lamps', 'panel'];
const ATTEMPTS = 80;
/** The strongest cause stands out from the next by this, and so on down. */
const APART = 1.4;
const LEAST_LEAD = 0.1;
const LEAST_COMPANION = 0.03;
/** More than this is a ruin that no one would photograph, but for a rim. */
const MOST_SPREAD_EV = 3;
/** These weigh twice when the leading cause is drawn: they are what a set is moved for. */
const OFTEN: readonly PlantedKind[] = [
  'off-centre',
  'too-close',
  'aimed-off',
  'unequal-lamps',
  'unequal-colour',
  'hot-spot',
  'lens-falloff',
];
/** A distance cures these as well, so what it would bring may pass what they cost. */
const CURED_BY_DISTANCE: readonly PlantedKind[] = ['off-centre', 'aimed-off', 'unequal-lamps'];

/** In the order of planting: spill last of the light, as it is a share of it; then what dims light already there. */
const PLANTERS: Record<PlantedKind, Planter> = {
  'too-close': plantTooClose,
  'off-centre': plantOffCentre,
  'aimed-off': plantAimedOff,
  'unequal-lamps': plantUnequalLamps,
  'unequal-colour': plantUnequalColour,
  'hot-spot': plantHotSpot,
  'stray-light': plantStrayLight,
  'tinted-all-over': plantTintAllOver,
  'tinted-on-one-side': plantTintOnOneSide,
  creases: plantCreases,
  weave: plantWeave,
  specks: plantSpecks,
  'rim-in-view': plantRim,
  'lens-falloff': plantLensFalloff,
  'lens-colour': plantLensColour,
  bands: plantBands,
};
const ORDER = Object.keys(PLANTERS) as PlantedKind[];
const SPILL_AT = ORDER.indexOf('stray-light');

/** Draws a studio with one to three causes, the strongest clearly first; the same seed gives the same studio. */
export function randomStudio(
  seed: number,
  arrangement = ARRANGEMENTS[Math.floor(seededRandom(seed ^ 0x51ed).uniform() * 4)]!,
): RandomStudio {
  const first = drawsFrom(seededRandom(seed ^ 0x2545));
  const leads = kindsOf(arrangement).filter((kind) => !FINE_KINDS.has(kind));
  const lead = first.either([...leads, ...leads.filter((kind) => OFTEN.includes(kind))]);
  const companions = first.either([0, 1, 1, 2, 2]);
  for (let attempt = 0; attempt < ATTEMPTS; attempt++) {
    const draws = drawsFrom(seededRandom(Math.imul(seed, 0x9e3b) + attempt));
    const studio = attemptAt(seed, { arrangement, lead, companions }, draws);
    if (studio) return studio;
  }
  throw new Error(`seed ${seed}: no ${arrangement} set in which ${lead} stands out`);
}

/** Causes that an arrangement can have. */
export function kindsOf(arrangement: Arrangement): PlantedKind[] {
  const not: Record<Arrangement, readonly PlantedKind[]> = {
    'behind-sheet': ['unequal-lamps', 'unequal-colour'],
    bounced: ['unequal-lamps', 'unequal-colour', 'hot-spot', 'rim-in-view'],
    'two-lamps': ['hot-spot', 'rim-in-view'],
    panel: ['off-centre', 'too-close', 'aimed-off', 'unequal-lamps', 'unequal-colour', 'creases', 'weave'],
  };
  return PLANTED_KINDS.filter((kind) => !not[arrangement].includes(kind));
}

interface Plan {
  readonly arrangement: Arrangement;
  readonly lead: PlantedKind;
  readonly companions: number;
}

function attemptAt(seed: number, plan: Plan, draws: Draws): RandomStudio | null {
  const { arrangement, lead } = plan;
  const kinds = [lead, ...companionsOf(plan, draws)];
  const steady = kinds.includes('bands') || arrangement === 'panel';
  const light = steady || draws.chance(0.5) ? 'continuous' : 'flash';
  const aspect = draws.chance(kinds.includes('bands') ? 0.3 : 0.1)
    ? 3 / 2
    : draws.either([2 / 3, 2 / 3, 3 / 4]);
  let set = goodPractice({ arrangement, light, aspect }, draws);
  const facts: CauseFacts[] = [];
  ORDER.forEach((kind, at) => {
    if (at === SPILL_AT && !kinds.includes(kind)) set = withLittleSpill(set, draws);
    if (!kinds.includes(kind)) return;
    const planted = PLANTERS[kind](set, draws, kind === lead);
    set = planted.set;
    facts.push(planted.facts);
  });
  const spread = spreadEv(set);
  if (spread > MOST_SPREAD_EV && lead !== 'rim-in-view') return null;
  const withShare = (each: CauseFacts): PlantedCause => {
    const mired = 'mired' in each ? each.mired : null;
    return { ...each, shareEv: shareEv(set, each.kind, spread), mired } as PlantedCause;
  };
  const leading = withShare(facts.find(({ kind }) => kind === lead)!);
  if (strength(leading) < LEAST_LEAD) return null; // found out first, as the other shares are dear
  const planted = facts.map((each) => (each.kind === lead ? leading : withShare(each)));
  planted.sort((a, b) => strength(b) - strength(a));
  if (!standsOut(planted, lead)) return null;
  const leftover = leftoverOf(set, kinds, spread);
  const inTheWay = Math.max(0, ...leftover.map((cause) => cause.shareEv ?? 0));
  const ofBrightness = (planted[0]!.shareEv ?? 0) >= LEAST_LEAD;
  if (ofBrightness && !CURED_BY_DISTANCE.includes(lead) && planted[0]!.shareEv! < inTheWay) return null;
  const setup = enteredSetup(set, { arrangement, light }, draws);
  return { seed, set, setup, planted, leftover, spreadEv: spread, aspect };
}

/** A light too close or a rim in view would drown what it accompanies, two tints would be one. */
function companionsOf({ arrangement, lead, companions }: Plan, draws: Draws): PlantedKind[] {
  const left = kindsOf(arrangement).filter((kind) => !['too-close', 'rim-in-view', lead].includes(kind));
  const chosen: PlantedKind[] = [];
  while (chosen.length < companions) {
    const kind = draws.either(left);
    const tints = [lead, ...chosen, kind].filter((each) => each.startsWith('tinted-'));
    if (!chosen.includes(kind) && tints.length < 2) chosen.push(kind);
  }
  return chosen;
}

function leftoverOf(set: StudioSet, kinds: readonly PlantedKind[], spread: number): PlantedCause[] {
  if (set.lamps.length === 0 || kinds.includes('too-close')) return [];
  const distanceFrameWidths = set.lamps[0]!.distanceMm / set.frameWidthMm;
  return [
    { kind: 'too-close', distanceFrameWidths, shareEv: shareEv(set, 'too-close', spread), mired: null },
  ];
}

function standsOut(planted: readonly PlantedCause[], lead: PlantedKind): boolean {
  const coarse = planted.filter(({ kind }) => !FINE_KINDS.has(kind));
  if (coarse[0]!.kind !== lead) return false;
  return coarse
    .slice(1)
    .every(
      (cause, i) => strength(cause) >= LEAST_COMPANION && strength(coarse[i]!) >= APART * strength(cause),
    );
}
