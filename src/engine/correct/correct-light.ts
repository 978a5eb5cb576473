import { EngineError } from '../engine-error.ts';
import type { LinearFrame } from '../frame/linear-frame.ts';
import { storedRegion } from '../grid/stored-region.ts';
import type { Profile } from '../profile/profile.ts';
import { applyGains, type CodedLight, type OutCoding } from './apply-gains.ts';
import { type BackgroundFigures, backgroundBlocks, type StoredPart } from './background-blocks.ts';
import { backgroundLevel } from './background-level.ts';
import { type CorrectedLevels, correctedLevels } from './corrected-levels.ts';
import { type FrameGains, frameGains } from './frame-gains.ts';
import type { Brush } from './matte/brush.ts';
import { type FoundMatte, findMatte, type Matte } from './matte/find-matte.ts';
import { rampLattice } from './ramp-lattice.ts';
import { profileToXyz } from './space-change.ts';

/** What a correction changes: the whole frame, the background alone, or the frame by one straight ramp. */
export const TREATMENTS = ['everything', 'background-only', 'ramp-only'] as const;
export type Treatment = (typeof TREATMENTS)[number];

export interface LightOptions {
  readonly treat?: Treatment;
  /** Whether to take the cast out by the profile's neutral gains. */
  readonly neutral?: boolean;
  /** Stops below white that the background is to be brought to; `null` leaves its level as the profile makes it. */
  readonly levelEv?: number | null;
  /** The blank frame's own light; 'background-only' needs it, and the background's figures are told by it. */
  readonly blank?: LinearFrame;
  /** What a person says of background and subject, over what is found. */
  readonly brush?: Brush;
  /** Side of the blocks that the background's figures are told over, in pixels; 64 where left out. */
  readonly blockPx?: number;
}

export interface CorrectedLight extends CodedLight {
  /** Stops by which all was lifted to bring the background to the level asked for; 0 where none was. */
  readonly liftStops: number;
  /** Figures of the light of the background alone; `null` without a blank to tell it by, or where none is left. */
  readonly background: { readonly before: BackgroundFigures; readonly after: BackgroundFigures } | null;
  /** Where background and subject lie; `null` without a blank. */
  readonly matte: FoundMatte | null;
}

/**
 * Corrects a frame's light by a profile and codes it again.
 *
 * @throws {@link EngineError} `wrong-profile` for gains of another camera's own colours; `no-light` where a frame or
 * its blank is black, and the background alone is to be corrected.
 * @throws {@link RangeError} where the background alone is to be corrected, and no blank is given.
 */
export function correctLight(
  frame: LinearFrame,
  profile: Profile,
  options: LightOptions,
  out: OutCoding,
  onProgress: (fraction: number) => void = () => {},
): CorrectedLight {
  const isGrey = out.channels < 3;
  const matte = matteOf(frame, options);
  const isBackgroundOnly = options.treat === 'background-only';
  const share = isBackgroundOnly && matte ? matte.share : null;
  const unlifted = gainsFor(frame, profile, options, isGrey, 0);
  const { levelEv = null } = options;
  const level = levelEv === null ? null : backgroundLevel(frame, unlifted, profile, matte);
  const liftStops = levelEv === null || level === null ? 0 : -levelEv - level;
  const gains = liftStops === 0 ? unlifted : gainsFor(frame, profile, options, isGrey, liftStops);
  return {
    ...applyGains(frame, gains, out, share, onProgress),
    liftStops,
    background: matte && backgroundBlocks(matte, gains, frame.toXyz, partOf(frame, profile), options.blockPx),
    matte: matte && forOtherThreads(matte),
  };
}

/** What a correction would do, before it is done: where the background comes to lie, and what would pass white. */
export interface ForetoldLevels extends CorrectedLevels {
  /** Stops of the background against white (below: negative); `null` where no level stands out. */
  readonly backgroundEv: number | null;
}

/** Lay any level over it by `pixelsBeyondWhite(levels, −levelEv − backgroundEv)`. */
export function foretellLevels(
  frame: LinearFrame,
  profile: Profile,
  options: LightOptions,
  isGrey: boolean,
): ForetoldLevels {
  const matte = matteOf(frame, options);
  const gains = gainsFor(frame, profile, options, isGrey, 0);
  return {
    ...correctedLevels(frame, gains, options.treat === 'background-only' && matte ? matte.share : null),
    backgroundEv: backgroundLevel(frame, gains, profile, matte),
  };
}

function matteOf(frame: LinearFrame, { treat, blank, brush }: LightOptions): Matte | null {
  if (blank && treat === 'background-only') return findMatte(frame, blank, brush);
  if (blank) return toldMatte(frame, blank, brush);
  if (treat === 'background-only')
    throw new RangeError('to correct the background alone, its blank frame is needed');
  return null;
}

/** Where only figures are told by it, a background that can't be found is no hindrance. */
function toldMatte(frame: LinearFrame, blank: LinearFrame, brush: Brush | undefined): Matte | null {
  try {
    return findMatte(frame, blank, brush);
  } catch (error) {
    if (error instanceof EngineError && error.code === 'no-light') return null;
    throw error;
  }
}

/** The region that a profile's gains are made for, over the frame as stored. */
function partOf(frame: LinearFrame, { madeFrom }: Profile): StoredPart {
  const { x0, y0, x1, y1 } = storedRegion(frame, madeFrom.region);
  const { widthPx, heightPx } = frame;
  return { left: x0 / widthPx, top: y0 / heightPx, right: x1 / widthPx, bottom: y1 / heightPx };
}

/** Neither a function nor the light can or need be handed on. */
function forOtherThreads({ share: _share, cells: _cells, ...matte }: Matte): FoundMatte {
  return matte;
}

function gainsFor(
  frame: LinearFrame,
  profile: Profile,
  { treat = 'everything', neutral = true }: LightOptions,
  isGrey: boolean,
  liftStops: number,
): FrameGains {
  const { colourSpace } = profile;
  const toXyz = 'primaries' in colourSpace ? profileToXyz(colourSpace) : frame.toXyz;
  const lattice = treat === 'ramp-only' ? rampLattice(profile, toXyz) : profile.lattice;
  return frameGains(frame, profile, lattice, { isGrey, neutral, liftStops });
}
