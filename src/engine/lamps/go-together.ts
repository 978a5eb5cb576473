import type { FittedSet } from './fit-set.ts';
import type { SeenFrame } from './seen-frames.ts';

/** Takes of one set that leave more than this over may not be of one set, in stops; own choice. */
const APART_EV = 0.003;
const MUCH_WORSE = 2;

/** Whether one set, changed as it was told, follows the present frame and those of earlier takes. */
export function goTogether({ leftOver }: Pick<FittedSet, 'leftOver'>, frames: readonly SeenFrame[]): boolean {
  return !frames.some(({ isEarlier }) => isEarlier) || worstOfTakes(leftOver, frames) < APART_EV;
}

/**
 * Whether all takes together are followed so much worse than the present frame by itself that it is the takes which
 * are at odds, and not the model with the frame.
 */
export function isMuchWorse(
  { leftOver }: Pick<FittedSet, 'leftOver'>,
  frames: readonly SeenFrame[],
  alone: { readonly leftOverEv: number },
): boolean {
  return worstOfTakes(leftOver, frames) > MUCH_WORSE * alone.leftOverEv;
}

/** Of the present frame, which is the first, and of earlier ones; second frames are weighed elsewhere. */
function worstOfTakes(leftOver: FittedSet['leftOver'], frames: readonly SeenFrame[]): number {
  return Math.max(...leftOver.map(({ ev }, i) => (i === 0 || frames[i]!.isEarlier ? ev : 0)));
}
