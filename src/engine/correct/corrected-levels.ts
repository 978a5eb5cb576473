import { isMarked } from '../frame/is-marked.ts';
import type { LinearFrame } from '../frame/linear-frame.ts';
import type { FrameGains } from './frame-gains.ts';
import { lightRows } from './light-rows.ts';
import type { ShareOfBackground } from './share-of-background.ts';

const single = new Float32Array(1);
const bitsOfSingle = new Int32Array(single.buffer);

/** Bins per halving of light as a power of two: about a thousandth of a stop each. */
const BIN_BITS = 10;
const SHIFT = 23 - BIN_BITS;

/** How many pixels a corrected frame has at each level of its strongest channel, before it is coded. */
export interface CorrectedLevels {
  /** By the leading bits of the light as a single-precision number. */
  readonly pixelsAtLevel: Uint32Array;
  /** Pixels that the file already holds clipped; they are in no level. */
  readonly clippedBefore: number;
}

export function correctedLevels(
  frame: LinearFrame,
  gains: FrameGains,
  share: ShareOfBackground | null,
): CorrectedLevels {
  const pixelsAtLevel = new Uint32Array((255 << BIN_BITS) + 1);
  const { widthPx, heightPx, clipCode, channels } = frame;
  const rows = lightRows(frame, gains, share);
  let clippedBefore = 0;
  for (let row = 0; row < heightPx; row++) {
    const [red, green, blue] = rows.fill(row);
    for (let i = 0, at = row * widthPx * channels; i < widthPx; i++, at += channels) {
      const isClipped =
        isMarked(frame, row * widthPx + i) ||
        frame.samples[at]! >= clipCode ||
        (channels > 2 && (frame.samples[at + 1]! >= clipCode || frame.samples[at + 2]! >= clipCode));
      if (isClipped) clippedBefore++;
      else {
        single[0] = Math.max(red[i]!, green[i]!, blue[i]!, 0);
        pixelsAtLevel[bitsOfSingle[0]! >> SHIFT]!++;
      }
    }
  }
  return { pixelsAtLevel, clippedBefore };
}

/** How many pixels would pass white, to about a thousandth of a stop, if all light were lifted by so many stops. */
export function pixelsBeyondWhite({ pixelsAtLevel }: CorrectedLevels, liftStops: number): number {
  single[0] = 2 ** -liftStops;
  let pixels = 0;
  for (let bin = bitsOfSingle[0]! >> SHIFT; bin < pixelsAtLevel.length; bin++) pixels += pixelsAtLevel[bin]!;
  return pixels;
}
