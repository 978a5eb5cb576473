import { quantile } from '../numeric/quantile.ts';
import type { FrameGlance } from './frame-glance.ts';
import { exposedEv, matchFrames } from './match-frames.ts';

/** How a frame's level stands in its shoot. */
export type FrameLevel = 'usual' | 'without-light' | 'overexposed' | 'underexposed';

const CLIPPED_SHARE = 0.5;
const USUALLY_CLIPPED_SHARE = 0.3;
/** What the lamp's own light is over a room's, at least, in stops; own choice. */
const LAMP_OVER_ROOM_EV = 2.5;
/** Bright parts so far under white leave too few codes of eight bits. */
const TOO_DARK_EV = -4.5;
/** Frames of one scene are alike in so many cells. */
const ALIKE_SHARE = 0.6;

const brightEv = ({ stops }: FrameGlance) => quantile(stops, 0.9);

/** How the level of every frame stands, by what is usual in the shoot and by the exposure that the files state. */
export function frameLevels(glances: readonly FrameGlance[]): FrameLevel[] {
  const bright = glances.map(brightEv);
  const light = glances.map((glance, i) => bright[i]! - (exposedEv(glance) ?? 0));
  const usualLight = quantile(light, 0.5);
  const usualClipped = quantile(
    glances.map(({ clippedShare }) => clippedShare),
    0.5,
  );
  return glances.map((glance, i) => {
    if (glance.clippedShare > CLIPPED_SHARE && usualClipped < USUALLY_CLIPPED_SHARE) return 'overexposed';
    const isDark = bright[i]! < TOO_DARK_EV;
    if (usualLight - light[i]! < LAMP_OVER_ROOM_EV) return isDark ? 'underexposed' : 'usual';
    if (exposedEv(glance) !== null) return 'without-light';
    // a scene that is only darker keeps its shape; another light has another
    const isSameScene = glances.some(
      (other, j) => j !== i && matchFrames(other, glance, SHAPE_LOOSE_EV).share > ALIKE_SHARE,
    );
    return isSameScene ? 'underexposed' : 'without-light';
  });
}

const SHAPE_LOOSE_EV = 9;
