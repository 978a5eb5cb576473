import { type MeasuredFrame, type MeasureOptions, measureFrame } from '../../src/engine/measure-frame.ts';
import { type FrameReport, readFrame } from '../../src/engine/read-frame.ts';
import { srgbResponse } from '../../src/engine/response/srgb-response.ts';
import { UNKNOWN_SETUP } from '../../src/engine/setup.ts';
import { DEFAULT_TOLERANCE } from '../../src/engine/tolerances.ts';
import { nodePlatform } from '../node-platform.ts';
import { toJpeg, toPng } from '../synthetic/encode.ts';
import type { KnownField } from '../synthetic/known-field.ts';
import { renderFrame } from '../synthetic/render-frame.ts';

/** How a known field becomes a file: shot noise of a 30 000-electron well unless said otherwise. */
export const CODINGS = ['16 bit', '8 bit', '8 bit noise-free', 'JPEG 4:4:4', 'JPEG 4:2:0'] as const;
export type Coding = (typeof CODINGS)[number];

export const WELL_ELECTRONS = 30_000;

export async function fileOf(
  field: KnownField,
  coding: Coding,
  widthPx: number,
  heightPx: number,
  seed: number,
): Promise<Uint8Array> {
  const frame = renderFrame(field, {
    widthPx,
    heightPx,
    bits: coding === '16 bit' ? 16 : 8,
    curve: 'srgb',
    electronsAtFull: coding === '8 bit noise-free' ? null : WELL_ELECTRONS,
    seed,
  });
  if (coding === 'JPEG 4:4:4') return await toJpeg(frame, { quality: 90, chroma: '4:4:4' });
  if (coding === 'JPEG 4:2:0') return await toJpeg(frame, { quality: 90, chroma: '4:2:0' });
  return toPng(frame);
}

/** Reads bytes as the tool would, with nothing known about the set. */
export function readBytes(bytes: Uint8Array, name = 'blank.png'): Promise<FrameReport> {
  return readFrame([{ name, bytes }], { setup: UNKNOWN_SETUP, tolerance: DEFAULT_TOLERANCE }, nodePlatform);
}

/** Measures bytes alone: no set is fitted, nothing is judged. */
export function measureBytes(
  bytes: Uint8Array,
  name = 'blank.png',
  options: MeasureOptions = {},
): Promise<MeasuredFrame> {
  return measureFrame([{ name, bytes }], options, nodePlatform);
}

/**
 * What is known of a coding here: its JPEGs hold no tone curve. A camera's might, and a JPEG of which nothing is known has
 * a ± that allows for one.
 */
export const knownOf = (coding: Coding): MeasureOptions =>
  coding.startsWith('JPEG') ? { response: srgbResponse() } : {};
