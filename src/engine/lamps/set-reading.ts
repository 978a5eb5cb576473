import { mean } from '../numeric/mean.ts';
import type { Measurement } from '../reading.ts';
import type { Setup } from '../setup.ts';
import { carriedStart, type FoundSet } from './carried-start.ts';
import { type CauseShare, causeShares, type LeastShare, type RivalCauses } from './cause-shares.ts';
import { type EarlierTake, slipCount } from './earlier-take.ts';
import { correlation, type Estimate, estimateOf } from './estimate.ts';
import { type Family, fitSet } from './fit-set.ts';
import { goTogether, isMuchWorse } from './go-together.ts';
import { lensShare } from './lens-share.ts';
import { likelySets } from './likely-sets.ts';
import type { LitSet, PanelProfile, SetLight } from './lit-set.ts';
import { type MainColour, mainColour, mainMired } from './main-colour.ts';
import type { SecondFrame, SecondFrameRole } from './second-frame.ts';
import { seenFrames } from './seen-frames.ts';
import { type FamilyTraits, setModel } from './set-model.ts';
import type { SetSamples } from './set-samples.ts';
import { spreadSpots } from './spread-spots.ts';
import { furtherStarts, startingPoints } from './starting-points.ts';
import { aimError, thrownEv } from './taken-out.ts';
import { isSpillTold, sideOf, spillShare } from './told-of-spill.ts';
import { standsInRoom } from './within-room.ts';

/** Where a light was found; frame widths about the middle of the frame, distance along the normal. */
export interface FoundLight {
  readonly right: Estimate;
  readonly down: Estimate;
  readonly distance: Estimate;
  /** How the errors of right and distance go together, −1 to 1. */
  readonly rightWithDistance: number;
  readonly aimRight: number;
  readonly aimDown: number;
  /** How far the aimed-at spot lies from where it may well be. */
  readonly aimErrorRight: Estimate;
  readonly aimErrorDown: Estimate;
}

/** What a model of the set makes of a frame. Structured-cloneable. */
export interface SetReading {
  readonly lights: readonly FoundLight[];
  /** How much stronger the first of two lights is on the background, in stops, and warmer, in mired. */
  readonly balance: { readonly ev: Estimate; readonly mired: Estimate } | null;
  /** Share of the light in the middle, its warmth against the lights, and the side that it comes from. */
  readonly spill: {
    readonly share: Estimate;
    readonly mired: Estimate;
    /** Where it grows towards; `null` where it is not known to come from a side. */
    readonly fromDeg: number | null;
  };
  /** Rise of a panel's sides and of its top and bottom over the middle of the frame, in stops; `null` without one. */
  readonly panelRise: { readonly acrossEv: number; readonly downEv: number } | null;
  /** How far off the middle of the frame the lights stand together. */
  readonly offCentre: { readonly right: Estimate; readonly down: Estimate } | null;
  /** The second frames that went into it, and what it leaves over of each, in stops. */
  readonly secondFrames: readonly { readonly kind: SecondFrameRole['kind']; readonly leftOverEv: number }[];
  /** Whether the frames tell spill from the light: by its colour, or by one with the lights off. */
  readonly isSpillTold: boolean;
  /** The colour of the lights on the clear surface, against the white of the file: the same all over the frame. */
  readonly mainColour: MainColour;
  /** Tint of the surface itself: how much warmer one side is than the other, and which; `null` where light explains it. */
  readonly tint: { readonly mired: number; readonly towardDeg: number } | null;
  /** Loss in the corners of the frame, in stops. */
  readonly lensCornerEv: Estimate;
  /** Change of colour in the corners that is the lens's, in mired. */
  readonly lensCornerMired: Estimate;
  readonly causes: readonly CauseShare[];
  /** Causes that the frames cannot tell from each other. */
  readonly rivals: readonly RivalCauses[];
  /** Sets as likely as the frames leave them, the best first. */
  readonly sets: readonly LitSet[];
  /** Whether earlier takes do not go with it and the moves said to be made, so that it was read without them. */
  readonly isTakenApart: boolean;
  /** The best of each kind of set that explains the frames, likeliest first: where a later fit may begin. */
  readonly found: readonly FoundSet[];
  /** Root mean square of what the best set leaves over, in stops. */
  readonly leftOverEv: number;
  /** The same of colour, in u′v′. */
  readonly leftOverUv: number;
}

const DRAWN_SETS = 48;

/** The least that is a cause at all; what is told goes by the tolerance. */
const LEAST: LeastShare = { ev: 0.05, deltaUv: 0.001 };

/** Less tint than this, a distance in u′v′, is no sheet's fault. */
const LEAST_TINT_UV = 0.001;

/** A surface that is tinted on one side is rarer than spill of another colour, and than two unlike lights; nats. Own choice. */
const SURFACE_IS_RARER = 1;
const BESIDE_TWO_LIGHTS = 4;

/** Fewer samples leave too much open. */
const FEWEST_SAMPLES = 40;

/** Fits the set that was entered to a reading's samples; `null` where too little was measured. */
export function readSet(
  measurement: Measurement,
  samples: SetSamples,
  setup: Setup,
  secondFrames: readonly SecondFrame[] = [],
  earlierTakes: readonly EarlierTake[] = [],
): SetReading | null {
  if (samples.x.length < FEWEST_SAMPLES) return null;
  const frames = seenFrames(samples, secondFrames, earlierTakes, setup.frameWidthMm);
  const slips = slipCount(earlierTakes);
  const { cast } = measurement;
  const castHere = { mired: cast.mired ?? 0, duv: cast.duv ?? 0 };
  const isUnevenlyTinted = mayBeTinted(measurement);
  const family = (traits: FamilyTraits, rarer: number): Family => {
    const model = setModel(setup, samples.aspect, castHere, traits, slips);
    const last = earlierTakes.at(-1);
    return {
      model,
      starts: startingPoints(model, samples, castHere),
      furtherStarts: furtherStarts(model, samples),
      carried: last === undefined ? [] : last.found.map((found) => carriedStart(model, found, last.change)),
      canBe: (set) => standsInRoom(set, setup),
      rarer,
    };
  };
  const families = [
    family({}, 0),
    ...(isUnevenlyTinted ? [family({ isTinted: true }, surfaceIsRarer(setup))] : []),
    ...(mayBeThin(setup) ? [family({ isThin: true }, 0)] : []),
    ...(setup.arrangement === 'panel'
      ? [family({ isEvenPanel: true }, 0), family({ isGoodLens: true }, 0)]
      : []),
  ];
  const fitted = fitSet(families, frames);
  if (!goTogether(fitted, frames)) {
    const alone = readSet(measurement, samples, setup, secondFrames);
    if (alone !== null && isMuchWorse(fitted, frames, alone)) return { ...alone, isTakenApart: true };
  }
  const sets = likelySets(fitted, DRAWN_SETS);
  const estimate = (of: (set: LitSet) => number): Estimate => estimateOf(sets.map(of));
  const { set } = fitted;
  const { tint } = set;
  return {
    tint:
      tint === null
        ? null
        : {
            mired: Math.hypot(tint.rightMired, tint.downMired),
            towardDeg: (Math.atan2(tint.downMired, tint.rightMired) * 180) / Math.PI,
          },
    mainColour: mainColour(set),
    lights: set.lights.map((light, lamp): FoundLight => {
      const at = (of: (light: SetLight) => number) => estimate(({ lights }) => of(lights[lamp]!));
      return {
        right: at(({ x }) => x),
        down: at(({ y }) => y),
        distance: at(({ distance }) => distance),
        rightWithDistance: correlation(
          sets.map(({ lights }) => lights[lamp]!.x),
          sets.map(({ lights }) => lights[lamp]!.distance),
        ),
        aimRight: light.aimX,
        aimDown: light.aimY,
        aimErrorRight: at((each) => aimError(each)[0]),
        aimErrorDown: at((each) => aimError(each)[1]),
      };
    }),
    balance:
      set.lights.length < 2
        ? null
        : {
            ev: estimate(({ lights }) => thrownEv(lights[0]!) - thrownEv(lights[1]!)),
            mired: estimate(({ lights }) => lights[0]!.colour.mired - lights[1]!.colour.mired),
          },
    spill: {
      share: estimate(spillShare),
      mired: estimate((each) => each.spill!.colour.mired - mainMired(each)),
      fromDeg: sideOf(
        estimate(({ spill }) => spill!.rightEv),
        estimate(({ spill }) => spill!.downEv),
      ),
    },
    panelRise: set.panel && panelRise(set.panel),
    offCentre:
      set.lights.length === 0
        ? null
        : {
            right: estimate(({ lights }) => mean(lights.map(({ x }) => x))),
            down: estimate(({ lights }) => mean(lights.map(({ y }) => y))),
          },
    secondFrames: secondFrames.map(({ role }, i) => ({
      kind: role.kind,
      leftOverEv: fitted.leftOver[i + 1]!.ev,
    })),
    isSpillTold: isSpillTold(
      estimate((each) => each.spill!.colour.mired - mainMired(each)),
      secondFrames,
    ),
    lensCornerEv: estimate((each) => -Math.log2(lensShare(each.lens!, each.aspect)(0.5, each.aspect / 2))),
    lensCornerMired: estimate(({ lens }) => lens!.corner.mired),
    ...causeShares(sets, spreadSpots(measurement), LEAST),
    sets,
    isTakenApart: false,
    found: fitted.modes.map(({ model, point }) => ({
      set: model.setAt(point),
      figures: Object.fromEntries(model.parameters.map(({ name }, i) => [name, point[i]!])),
    })),
    leftOverEv: fitted.leftOver[0]!.ev,
    leftOverUv: fitted.leftOver[0]!.uv,
  };
}

/** Whether a tint of the surface is worth a thought: only where the colour is uneven. */
function mayBeTinted({ tint }: Measurement): boolean {
  return tint.spreadDeltaUv > Math.max(LEAST_TINT_UV, 3 * tint.plusMinusDeltaUv);
}

/** At the sides of the frame, which is half a frame width from the middle. */
function panelRise({ acrossEv, downEv, halfWidth }: PanelProfile): SetReading['panelRise'] {
  const half = 0.5 / halfWidth;
  return { acrossEv: acrossEv * half * half, downEv: downEv * half * half };
}

const surfaceIsRarer = ({ arrangement }: Setup) =>
  arrangement === 'two-lamps' ? BESIDE_TWO_LIGHTS : SURFACE_IS_RARER;

/** How close a light stands and how thin its sheet is can be told apart only where one of them is known. */
function mayBeThin({ arrangement, frameWidthMm, lampDistanceMm }: Setup): boolean {
  return arrangement === 'behind-sheet' && (frameWidthMm === null || (lampDistanceMm[0] ?? null) === null);
}
