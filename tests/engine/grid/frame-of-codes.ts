import type { LinearFrame } from '../../../src/engine/frame/linear-frame.ts';
import { linearise } from '../../../src/engine/frame/linearise.ts';
import type { RenderedFrame } from '../../synthetic/render-frame.ts';

export interface StoredAs {
  readonly orientation?: number;
  /** Coded linearly instead of by the sRGB curve. */
  readonly isLinear?: boolean;
}

/** Rendered RGB codes as linear light, as if they had been read from a PNG. */
export function frameOfCodes(
  rendered: RenderedFrame,
  { orientation = 1, isLinear = false }: StoredAs = {},
): LinearFrame {
  return linearise({
    format: 'png',
    widthPx: rendered.widthPx,
    heightPx: rendered.heightPx,
    channels: 3,
    bitsPerSample: rendered.bits,
    samples: rendered.samples,
    orientation,
    iccProfile: null,
    gamma: isLinear ? 1 : null,
    exifColourSpace: null,
    exposure: null,
    jpegDcSteps: null,
  }).frame;
}
