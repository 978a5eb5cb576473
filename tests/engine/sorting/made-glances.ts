import type { Exposure } from '../../../src/engine/reading.ts';
import { type FrameGlance, frameGlance } from '../../../src/engine/sorting/frame-glance.ts';
import { codedFrame, type MadeFrame } from '../../synthetic/shoots/made-frame.ts';

/** What a look at a made frame shows, as if decoded without loss. */
export function madeGlance(frame: MadeFrame, statesExposure = true): FrameGlance {
  const { widthPx, heightPx, samples } = codedFrame(frame);
  const rgba = new Uint8Array(widthPx * heightPx * 4);
  for (let pixel = 0; pixel < widthPx * heightPx; pixel++) {
    for (let channel = 0; channel < 3; channel++) rgba[pixel * 4 + channel] = samples[pixel * 3 + channel]!;
  }
  const exposure: Exposure = { ...frame.exposure, focalLengthMm: null, takenAt: null };
  return frameGlance({ widthPx, heightPx, samples: rgba }, statesExposure ? exposure : null);
}
