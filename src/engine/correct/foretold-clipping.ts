import type { LinearFrame } from '../frame/linear-frame.ts';
import type { Profile } from '../profile/profile.ts';
import { foretellLevels, type LightOptions } from './correct-light.ts';
import { pixelsBeyondWhite } from './corrected-levels.ts';
import type { FoundMatte } from './matte/find-matte.ts';

/**
 * Which share of a frame's pixels a correction that lifts all by so many stops would take beyond white, by a sample of
 * them (`pixelSample`). Those that the file holds clipped do not count.
 */
export function foretoldClipping(
  sample: readonly LinearFrame[],
  profile: Profile,
  { treat = 'everything', neutral = true }: LightOptions,
  liftStops: number,
  matte: FoundMatte | null,
  isGrey: boolean,
): number {
  const isBackgroundOnly = treat === 'background-only' && matte !== null;
  const options: LightOptions = { neutral, treat: treat === 'background-only' ? 'everything' : treat };
  let beyond = 0;
  let pixels = 0;
  for (const frame of sample) {
    const counted = isBackgroundOnly ? subjectDarkened(frame, matte) : frame;
    beyond += pixelsBeyondWhite(foretellLevels(counted, profile, options, isGrey), liftStops);
    pixels += frame.widthPx * frame.heightPx;
  }
  return beyond / pixels;
}

/** What is left as shot passes white nowhere. */
function subjectDarkened(frame: LinearFrame, { columns, rows, background }: FoundMatte): LinearFrame {
  const { widthPx, heightPx, channels } = frame;
  const samples = frame.samples.slice();
  for (let row = 0, at = 0; row < heightPx; row++) {
    const line = Math.floor(((row + 0.5) / heightPx) * rows) * columns;
    for (let column = 0; column < widthPx; column++, at += channels) {
      const cell = line + Math.floor(((column + 0.5) / widthPx) * columns);
      if (background[cell] !== 1) samples.fill(0, at, at + channels);
    }
  }
  return { ...frame, samples };
}
