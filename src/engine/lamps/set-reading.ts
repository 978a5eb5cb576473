import { mean } from '../numeric/mean.ts';
import type { Measurement } from '../reading.ts';
import type { Setup } from '../setup.ts';
import { type CauseShare, causeShares, type LeastShare, type SpreadSpots } from './cause-shares.ts';
import { type FittedSet, fitSet, startingPoints } from './fit-set.ts';
import { lensShare } from './lens-share.ts';
import { likelySets } from './likely-sets.ts';
import type { LitSet, SetLight } from './lit-set.ts';
import type { SecondFrame } from './second-frame.ts';
import { setSources } from './set-light.ts';
import { type SetModel, setModel } from './set-model.ts';
import { darkestSide, type SetSamples } from './set-samples.ts';
import { aimError, thrownEv } from './taken-out.ts';

/** A figure of a set with the half-width of its 95 % interval. */
export interface Estimate {
  readonly value: number;
  readonly plusMinus: number;
}

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
  readonly spill: { readonly share: Estimate; readonly mired: Estimate; readonly fromDeg: number };
  /** Tint of the surface itself: how much warmer one side is than the other, and which; `null` where light explains it. */
  readonly tint: { readonly mired: number; readonly towardDeg: number } | null;
  /** Loss in the corners of the frame, in stops. */
  readonly lensCornerEv: Estimate;
  /** Change of colour in the corners that is the lens's, in mired. */
  readonly lensCornerMired: Estimate;
  readonly causes: readonly CauseShare[];
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

/** How much likelier light of two colours is than a surface that is tinted on one side, in nats. Own choice. */
const SURFACE_IS_RARER = 2;

/** Fewer samples leave too much open. */
const FEWEST_SAMPLES = 40;

/** Spots along the region's sides at which spreads are compared. */
const SPOTS_ACROSS = 13;

/** Fits the set that was entered to a reading's samples; `null` where too little was measured. */
export function readSet(
  measurement: Measurement,
  samples: SetSamples,
  setup: Setup,
  _secondFrames: readonly SecondFrame[] = [],
): SetReading | null {
  if (samples.x.length < FEWEST_SAMPLES) return null;
  const { cast, falloff } = measurement;
  const castHere = { mired: cast.mired ?? 0, duv: cast.duv ?? 0 };
  const model = setModel(setup, samples.aspect, castHere);
  const hottest = { x: falloff.brightestAt.x - 0.5, y: (falloff.brightestAt.y - 0.5) * samples.aspect };
  const side = darkestSide(samples);
  const tintedFit = (tinted: SetModel) =>
    fitSet(tinted, samples, startingPoints(tinted, hottest, side).slice(0, 3));
  const plain = fitSet(model, samples, startingPoints(model, hottest, side));
  const fitted = mayBeTinted(measurement)
    ? likelier(plain, tintedFit(setModel(setup, samples.aspect, castHere, true)))
    : plain;
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
      fromDeg: (Math.atan2(set.spill!.downEv, set.spill!.rightEv) * 180) / Math.PI,
    },
    lensCornerEv: estimate((each) => -Math.log2(lensShare(each.lens!, each.aspect)(0.5, each.aspect / 2))),
    lensCornerMired: estimate(({ lens }) => lens!.corner.mired),
    causes: causeShares(fitted, spreadSpots(measurement), LEAST),
    leftOverEv: fitted.leftOver.ev,
    leftOverUv: fitted.leftOver.uv,
  };
}

/** Whether a tint of the surface is worth a thought: only where the colour is uneven. */
function mayBeTinted({ tint }: Measurement): boolean {
  return tint.spreadDeltaUv > Math.max(LEAST_TINT_UV, 3 * tint.plusMinusDeltaUv);
}

/** Light explains a frame unless a tinted surface does it so much better. */
function likelier(light: FittedSet, surface: FittedSet): FittedSet {
  const error = {
    ev: Math.min(light.error.ev, surface.error.ev),
    uv: Math.min(light.error.uv, surface.error.uv),
  };
  return surface.costAt(error) + SURFACE_IS_RARER < light.costAt(error) ? surface : light;
}

/** The spill's part of the light in the middle of the frame. */
function spillShare(set: LitSet): number {
  let [spill, all] = [0, 0];
  for (const { kind, level } of setSources(set)) {
    const light = level(0, 0);
    all += light;
    if (kind === 'spill') spill += light;
  }
  return spill / all;
}

function mainMired({ lights, panel }: LitSet): number {
  if (panel !== null) return panel.colour.mired;
  return mean(lights.map(({ colour }) => colour.mired));
}

/** An even lattice from the centre of the first cell to that of the last, both ways. */
function spreadSpots({ region, grid, frame }: Measurement): SpreadSpots {
  const aspect = frame.heightPx / frame.widthPx;
  const across = SPOTS_ACROSS;
  const down = Math.max(2, Math.round((SPOTS_ACROSS * grid.rows) / grid.columns));
  const x = new Float64Array(across * down);
  const y = new Float64Array(across * down);
  for (let i = 0; i < x.length; i++) {
    const inward = (k: number, of: number, cells: number) => (0.5 + (k / (of - 1)) * (cells - 1)) / cells;
    const atX = inward(i % across, across, grid.columns);
    const atY = inward(Math.floor(i / across), down, grid.rows);
    x[i] = region.left + atX * (region.right - region.left) - 0.5;
    y[i] = (region.top + atY * (region.bottom - region.top) - 0.5) * aspect;
  }
  return { x, y };
}

/** The best set's figure first, the likely ones' after it. */
function estimateOf(values: readonly number[]): Estimate {
  const middle = mean(values);
  const variance = values.reduce((sum, value) => sum + (value - middle) ** 2, 0) / (values.length - 1);
  return { value: values[0]!, plusMinus: 1.96 * Math.sqrt(variance) };
}

function correlation(a: readonly number[], b: readonly number[]): number {
  const [meanA, meanB] = [mean(a), mean(b)];
  let [ab, aa, bb] = [0, 0, 0];
  a.forEach((value, i) => {
    ab += (value - meanA) * (b[i]! - meanB);
    aa += (value - meanA) ** 2;
    bb += (b[i]! - meanB) ** 2;
  });
  return aa > 0 && bb > 0 ? ab / Math.sqrt(aa * bb) : 0;
}
