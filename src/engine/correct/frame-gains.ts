import type { LinearFrame } from '../frame/linear-frame.ts';
import type { Vector3 } from '../numeric/matrix3.ts';
import type { GainLattice, Profile } from '../profile/profile.ts';
import type { ChannelGains } from './gain-row.ts';
import { luminanceWeights, type SpaceChange, spaceChange } from './space-change.ts';
import { storedLattice } from './stored-lattice.ts';

/** Gains as they lie over one frame as stored: one channel's for grey, three otherwise. */
export interface FrameGains {
  readonly channels: readonly ChannelGains[];
  /** To the linear RGB in which they hold; `null` where the frame's own is that. */
  readonly space: SpaceChange | null;
}

/**
 * Lays a profile's gains, or other ones over the upright frame, over a frame as stored.
 *
 * @param neutral - takes the background's mean colour to white; grey has none to take.
 * @param liftStops - added to all gains.
 */
export function frameGains(
  frame: LinearFrame,
  profile: Profile,
  lattice: GainLattice,
  { isGrey, neutral, liftStops }: { isGrey: boolean; neutral: boolean; liftStops: number },
): FrameGains {
  const stored = storedLattice(lattice, frame.orientation);
  const { columns, rows } = stored;
  if (isGrey) {
    const weights = luminanceWeights(profile, frame);
    const log2Gain = stored.green.map(
      (green, at) => liftStops + log2Luminance([stored.red[at]!, green, stored.blue[at]!], weights),
    );
    return { channels: [{ columns, rows, log2Gain }], space: null };
  }
  const white = neutral ? profile.neutral : { red: 1, green: 1, blue: 1 };
  const channel = (name: 'red' | 'green' | 'blue'): ChannelGains => {
    const lift = liftStops + Math.log2(white[name]);
    return { columns, rows, log2Gain: stored[name].map((gain) => gain + lift) };
  };
  return {
    channels: [channel('red'), channel('green'), channel('blue')],
    space: spaceChange(frame, profile),
  };
}

/** What white becomes: the luminance of three gains. */
function log2Luminance(log2Gain: Vector3, weights: Vector3): number {
  const [red, green, blue] = log2Gain;
  return Math.log2(weights[0] * 2 ** red + weights[1] * 2 ** green + weights[2] * 2 ** blue);
}
