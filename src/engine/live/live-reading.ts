import type { Cast, Falloff, Verdict } from '../reading.ts';

/** What a feed shows now, averaged for as long as the light stands still. */
export interface LiveReading {
  readonly columns: number;
  readonly rows: number;
  /** As of a frame; its ± holds what pictures differ by among themselves, the coding's step and an unknown tone curve. */
  readonly falloff: Falloff;
  /** The part of that ± that averaging makes smaller, in stops; `null` until there are enough pictures. */
  readonly scatterEv: number | null;
  /** What a tone curve that nobody states may make the spread wrong by, in stops: the half-width of a 95 % interval. */
  readonly curveDoubtEv: number;
  /** Largest distance in u′v′ of any smoothed cell from the mean. */
  readonly tintDeltaUv: number;
  /** Of the mean, against the white of the feed. */
  readonly cast: Cast;
  readonly verdict: Verdict;
  /** Pictures averaged. */
  readonly pictures: number;
  readonly isMoving: boolean;
  /** How fast the spread changes, in stops a second; `null` where it can't be told from its scatter. */
  readonly trendEvPerS: number | null;
  /** Common change since averaging began, as automatic exposure and white balance make it; stops. */
  readonly levelDriftEv: number;
  readonly colourDriftEv: number;
  /** Share of pixels at one of the two highest codes in any channel, 0 to 1. */
  readonly clippedShare: number;
}
