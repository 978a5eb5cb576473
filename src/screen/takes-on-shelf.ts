import type { FrameReport } from '../engine/read-frame.ts';
import type { HeldTake } from '../takes/take.ts';

/**
 * Where the reports of takes lie that are not needed just now.
 * @event kept - whenever takes were put there
 */
export interface TakesOnShelf extends Pick<EventTarget, 'addEventListener'> {
  /** The takes without the reports that lie there safely, but for those of the takes named. */
  lighter(takes: readonly HeldTake[], needed: ReadonlySet<string>): readonly HeldTake[];
  /** Rejects where it is not there. */
  reportOf(take: HeldTake): Promise<FrameReport>;
}

/** Nothing lies anywhere else: every take is held in full. */
export const NO_SHELF: TakesOnShelf = {
  addEventListener: () => {},
  lighter: (takes) => takes,
  reportOf: () => Promise.reject(new Error('there is no shelf')),
};
