import type { LinearFrame } from '../../../src/engine/frame/linear-frame.ts';
import { cellsFromFrame } from '../../../src/engine/grid/cells-from-frame.ts';
import { type FoundRegion, findRegion } from '../../../src/engine/region/find-region.ts';
import type { KnownField } from '../../synthetic/known-field.ts';
import { type RenderOptions, renderFrame } from '../../synthetic/render-frame.ts';
import { frameOfCodes } from '../grid/frame-of-codes.ts';

/** Photographs a field, 96 × 64 cells of 8 pixels unless said otherwise. */
export function photographed(field: KnownField, options: Partial<RenderOptions> = {}): LinearFrame {
  const plain = {
    widthPx: 768,
    heightPx: 512,
    bits: 8,
    curve: 'srgb',
    electronsAtFull: null,
    seed: 1,
  } as const;
  return frameOfCodes(renderFrame(field, { ...plain, ...options }));
}

export const regionOf = (frame: LinearFrame): FoundRegion => findRegion(cellsFromFrame(frame), frame);

export const grey =
  (light: number): KnownField =>
  () => [light, light, light];
