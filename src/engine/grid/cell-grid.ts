import type { JpegDcSteps } from '../intake/jpeg-dc-steps.ts';
import type { Matrix3, Vector3 } from '../numeric/matrix3.ts';
import type { FrameRectangle } from '../reading.ts';
import type { FineStructure } from './fine-structure.ts';

/** One value a cell and channel, row-major from the top left of the upright region; NaN: no measurement. */
export interface CellChannels {
  readonly red: Float64Array;
  readonly green: Float64Array;
  readonly blue: Float64Array;
}

/**
 * The region averaged in linear light. Cell (column, row) covers an equal part of the region; its centre lies at
 * x = left + (column + 0.5) / columns × (right − left). The grid is upright whatever the file's orientation.
 */
export interface CellGrid {
  readonly columns: number;
  readonly rows: number;
  readonly region: FrameRectangle;
  /** Mean size of a cell in pixels, along the upright frame's x and y. */
  readonly cellWidthPx: number;
  readonly cellHeightPx: number;
  /** Robust mean of linear light, above 0: black is held at half the first code. NaN where the cell was set aside. */
  readonly light: CellChannels;
  /** Luminance that the cells set aside for not continuing their neighbours' light had; NaN for all others. */
  readonly setAsideLuminance: Float64Array;
  /** Standard deviation of single pixels about that mean, linear light. */
  readonly scatter: CellChannels;
  /** Pixels that went into each cell. */
  readonly pixels: Float64Array;
  /** Share of each cell's pixels with any channel clipped, blocked, or set aside as specks; 0 to 1. */
  readonly highlightShare: Float64Array;
  readonly shadowShare: Float64Array;
  readonly speckShare: Float64Array;
  /** The part of `speckShare` that is darker than the cell. */
  readonly darkSpeckShare: Float64Array;
  /** Linear light of every code, for the size of the coding's step at a level. */
  readonly lightAtCode: {
    readonly red: Float64Array;
    readonly green: Float64Array;
    readonly blue: Float64Array;
  };
  /** Light at which each channel is full; 1 each where left out. Raw files' channels fill up one by one. */
  readonly clipLight?: Vector3;
  /** A mean up to this code is black; 2 where left out. */
  readonly blackMeanCode?: number;
  readonly toXyz: Matrix3;
  /** How coarsely a JPEG coded its blocks' means before R, G and B were rounded; `null` for other formats. */
  readonly jpegDcSteps: JpegDcSteps | null;
  /** Variance of single pixels in a JPEG's luma and chroma, codes²; `null` for other formats or where it can't be told. */
  readonly jpegPixelVariance: readonly [number, number, number] | null;
  /** Whether the means were refined by what a JPEG itself holds of its blocks, beyond whole codes. */
  readonly refinedByBlocks: boolean;
  /** What shows between the cells; `null` where it was not looked for. */
  readonly fine: FineStructure | null;
}
