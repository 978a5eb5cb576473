import { quantile } from '../numeric/quantile.ts';
import { seededRandom } from '../numeric/seeded-random.ts';
import type { BlockCodes } from './block-codes.ts';
import { baseStops } from './code-axis.ts';

/** What one frame shows of a place. */
export interface Sighting {
  readonly frame: number;
  readonly code: number;
  /** Variance of that code by the pixels' own scatter. */
  readonly variance: number;
}

/** The same part of the picture in the frames in which it is neither clipped nor black: two at least. */
export interface Place {
  readonly block: number;
  readonly sightings: readonly Sighting[];
}

/** Below this a code says hardly more than that it is dark. */
const DARKEST_CODE = 5;
const MOST_PLACES = 160;
const BINS = 24;
/** Scatter of a block's mean code that decoding alone leaves. */
const DECODING_VARIANCE = 0.2 ** 2;
/** Largest standard deviation of codes within a block whose mean still stands for its light. */
const MOST_SCATTER = 12;

/** Places of one channel, evenly spread over the light that they show. */
export function bracketPlaces(
  frames: readonly BlockCodes[],
  channel: number,
  stops: readonly number[],
): Place[] {
  const pixels = frames[0]!.layout.sidePx ** 2;
  const calm = frames.map((frame) => calmVariance(frame.channels[channel]!.variance));
  const bins: Place[][] = Array.from({ length: BINS }, () => []);
  const found: { place: Place; light: number }[] = [];
  const blocks = frames[0]!.channels[channel]!.code.length;
  for (let block = 0; block < blocks; block++) {
    const sightings: Sighting[] = [];
    let light = 0;
    for (const [frame, { channels }] of frames.entries()) {
      const code = channels[channel]!.code[block]!;
      const scatter = channels[channel]!.variance[block]!;
      if (!(code >= DARKEST_CODE) || scatter > calm[frame]!) continue;
      sightings.push({ frame, code, variance: scatter / pixels + DECODING_VARIANCE });
      light += baseStops(code) - stops[frame]!;
    }
    if (sightings.length > 1) found.push({ place: { block, sightings }, light: light / sightings.length });
  }
  const lights = found.map(({ light }) => light);
  const [low, high] = [quantile(lights, 0), quantile(lights, 1)];
  for (const { place, light } of found)
    bins[Math.min(BINS - 1, Math.floor(((light - low) / (high - low || 1)) * BINS))]!.push(place);
  return spread(bins);
}

/** Takes from each kind of light as many as there are, up to an equal share, at random but repeatably. */
function spread(bins: readonly (readonly Place[])[]): Place[] {
  const random = seededRandom(bins.length);
  const chosen: Place[] = [];
  let left = MOST_PLACES;
  const bySize = bins.filter((bin) => bin.length > 0).toSorted((a, b) => a.length - b.length);
  for (const [i, bin] of bySize.entries()) {
    const share = Math.min(bin.length, Math.floor(left / (bySize.length - i)));
    const rest = [...bin];
    for (let taken = 0; taken < share; taken++) {
      const pick = taken + Math.floor(random.uniform() * (rest.length - taken));
      [rest[taken], rest[pick]] = [rest[pick]!, rest[taken]!];
      chosen.push(rest[taken]!);
    }
    left -= share;
  }
  return chosen.toSorted((a, b) => a.block - b.block);
}

/** Blocks are to be smooth as the frame's smoother ones are. */
function calmVariance(variance: Float32Array): number {
  const usual = Math.sqrt(quantile(variance, 0.25));
  return Math.min(1.5 + 2 * usual, MOST_SCATTER) ** 2;
}
