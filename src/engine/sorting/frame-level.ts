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

/**
 * How the level of every frame stands, by what is usual in the shoot and by the exposure that the files state. Frames that
 * state none are held against one another: a level without settings and light with them are two scales.
 */
export function frameLevels(glances: readonly FrameGlance[]): FrameLevel[] {
  const bright = glances.map(brightEv);
  const exposed = glances.map(exposedEv);
  const light = glances.map((_, i) => bright[i]! - (exposed[i] ?? 0));
  const usualOf = (isStated: boolean) =>
    quantile(
      light.filter((_, i) => (exposed[i] !== null) === isStated),
      0.5,
    );
  const usual = { stated: usualOf(true), notStated: usualOf(false) };
  const belowEv = light.map((ev, i) => (exposed[i] === null ? usual.notStated : usual.stated) - ev);
  const usualClipped = quantile(
    glances.map(({ clippedShare }) => clippedShare),
    0.5,
  );
  return glances.map((glance, i) => {
    if (glance.clippedShare > CLIPPED_SHARE && usualClipped < USUALLY_CLIPPED_SHARE) return 'overexposed';
    const isDark = bright[i]! < TOO_DARK_EV;
    if (belowEv[i]! < LAMP_OVER_ROOM_EV) return isDark ? 'underexposed' : 'usual';
    if (exposed[i] !== null) return 'without-light';
    // a scene that is only darker keeps the shape of a usual one; another light has another
    const isSameScene = glances.some(
      (other, j) =>
        belowEv[j]! < LAMP_OVER_ROOM_EV && matchFrames(other, glance, SHAPE_LOOSE_EV).share > ALIKE_SHARE,
    );
    return isSameScene ? 'underexposed' : 'without-light';
  });
}

const SHAPE_LOOSE_EV = 9;
