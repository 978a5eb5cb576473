import { type FrameReport, readFrame } from '../../src/engine/read-frame.ts';
import type { FrameRectangle, Reading } from '../../src/engine/reading.ts';
import { UNKNOWN_SETUP } from '../../src/engine/setup.ts';
import { DEFAULT_TOLERANCE } from '../../src/engine/tolerances.ts';
import { nodePlatform } from '../node-platform.ts';
import type { KnownField } from '../synthetic/known-field.ts';
import { type RenderedFrame, type RenderOptions, renderFrame } from '../synthetic/render-frame.ts';
import { readBytes } from './known-frames.ts';

export const [WIDTH, HEIGHT] = [480, 320];

/** A known field as a frame: 16 bits, no noise, unless said otherwise. */
export const render = (field: KnownField, options: Partial<RenderOptions> = {}): RenderedFrame =>
  renderFrame(field, {
    widthPx: WIDTH,
    heightPx: HEIGHT,
    bits: 16,
    curve: 'srgb',
    electronsAtFull: null,
    seed: 1,
    ...options,
  });

export const readingOf = async (bytes: Uint8Array): Promise<Reading> => (await readBytes(bytes)).reading;

/** Reads frames of one unchanged set-up, averaged. */
export const read = (sources: readonly Uint8Array[], region?: FrameRectangle): Promise<FrameReport> =>
  readFrame(
    sources.map((bytes) => ({ name: 'blank.png', bytes })),
    { setup: UNKNOWN_SETUP, tolerance: DEFAULT_TOLERANCE, ...(region && { region }) },
    nodePlatform,
  );
