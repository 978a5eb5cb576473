import { EngineError } from './engine-error.ts';
import type { Surface } from './fits/surface.ts';
import type { LinearRgbSpace } from './frame/linear-frame.ts';
import type { CellGrid } from './grid/cell-grid.ts';
import type { Platform } from './intake/platform.ts';
import type { FrameRectangle, Reading } from './reading.ts';
import type { Setup } from './setup.ts';
import type { Tolerance } from './tolerance.ts';

/** A file as picked, dropped or fetched. */
export interface FrameSource {
  readonly name: string;
  readonly bytes: Uint8Array;
}

export interface ReadOptions {
  readonly setup: Setup;
  readonly tolerance: Tolerance;
  /** Part of the upright frame to read; the whole frame where left out. */
  readonly region?: FrameRectangle;
}

export type ReadPhase = 'opening' | 'decoding' | 'averaging' | 'measuring' | 'fitting';

/** A reading with the intermediate results that plots and the profile are made from. Structured-cloneable. */
export interface FrameReport {
  readonly reading: Reading;
  readonly grid: CellGrid;
  /** Every surface that was fitted, simplest first. */
  readonly surfaces: readonly Surface[];
  readonly chosen: Surface;
  /** One sentence saying why that surface was chosen. */
  readonly chosenBecause: string;
  readonly space: LinearRgbSpace;
}

/**
 * Reads one blank frame, or several of one unchanged set-up averaged.
 *
 * @throws {@link EngineError} with a code of the public contract.
 */
export async function readFrame(
  _sources: readonly FrameSource[],
  _options: ReadOptions,
  _platform: Platform,
  _onProgress?: (phase: ReadPhase, fraction: number) => void,
): Promise<FrameReport> {
  throw new EngineError('unsupported-file', 'not built yet');
}
