import { photographSet } from '../studio/photograph-set.ts';
import type { StudioSet } from '../studio/studio-set.ts';

/** The set with every light off, exposed as it was with them on: the room's light alone. */
export function lampOffSet(set: StudioSet): StudioSet {
  const { tint } = set.background;
  const background =
    set.background.kind === 'panel' ? ({ kind: 'wall', ...(tint && { tint }) } as const) : set.background;
  const { exposureFactor } = photographSet(set).truth;
  return { ...set, background, lamps: [], exposure: { factor: exposureFactor } };
}

/**
 * The camera slid to the right over the same light, in frame widths: the lens's falloff and the bands stay with the
 * frame, everything else with the background.
 */
export function slidSet(set: StudioSet, rightFrameWidths: number): StudioSet {
  return { ...set, cameraRightMm: (set.cameraRightMm ?? 0) + rightFrameWidths * set.frameWidthMm };
}

/** The lens stopped down and the exposure made good: what its barrel cut off is back, its natural fall stays. */
export function stoppedDownSet(set: StudioSet): StudioSet {
  return set.lens ? { ...set, lens: { ...set.lens, mechanicalEv: 0 } } : set;
}
