import type { LinearRgbSpace } from '../colour/linear-rgb-space.ts';
import type { JpegDcSteps } from '../intake/jpeg-dc-steps.ts';
import type { ThroughTables } from '../intake/stored-image.ts';
import type { Matrix3, Vector3 } from '../numeric/matrix3.ts';
import type { LightBasis } from '../reading.ts';
import type { LightDoubt } from './light-doubt.ts';

export type { LinearRgbSpace };

/**
 * A frame as linear light, held as its stored codes and an exact table from code to light per channel, so that
 * 24 megapixels need no second copy. Light 1 is the white code. Not turned upright: `orientation` says how.
 */
export interface LinearFrame {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly channels: 1 | 2 | 3 | 4;
  readonly bitsPerSample: 8 | 16;
  readonly samples: Uint8Array | Uint8ClampedArray | Uint16Array;
  /** Linear light of every code (length 2^bitsPerSample); one table thrice where the channels share it. */
  readonly lightAtCode: {
    readonly red: Float64Array;
    readonly green: Float64Array;
    readonly blue: Float64Array;
  };
  /** Light at which each channel is full, where that is not 1: a raw file's channels are balanced, and fill up one by one. */
  readonly clipLight?: Vector3;
  /** Codes at or above count as clipped highlights. */
  readonly clipCode: number;
  /** Codes at or below count as blocked shadows. */
  readonly floorCode: number;
  /** What the file's own codes were where a profile's tables were gone by; absent where samples are those codes. */
  readonly fileCodes?: ThroughTables;
  /** A mean up to this code is black; 2 where left out. Raw files alone have noise below black. */
  readonly blackMeanCode?: number;
  /** Linear RGB to XYZ, adapted to D65 by linear Bradford from the file's own white; RGB 1,1,1 gives D65, Y = 1. */
  readonly toXyz: Matrix3;
  readonly space: LinearRgbSpace;
  readonly orientation: number;
  /** How coarsely a JPEG coded its blocks' means before R, G and B were rounded; `null` for other formats. */
  readonly jpegDcSteps: JpegDcSteps | null;
  readonly light: LightBasis;
  readonly lightSays: string;
  readonly doubt: LightDoubt;
}
