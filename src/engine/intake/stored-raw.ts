import type { Vector3 } from '../numeric/matrix3.ts';
import type { DngCalibration } from './dng-tags.ts';

/** How the codes of a raw picture's samples tell light, one value for red, green and blue each. */
export interface RawCodes {
  /** Code of no light, and of white; neither need be whole. */
  readonly zero: Vector3;
  readonly white: Vector3;
  /** Codes at or above are clipped, in every channel. */
  readonly clip: number;
  /** Where each channel is full, where that is below its white: what is clipped has `clip` all the same. */
  readonly full?: Vector3;
  /** Codes at or below tell no light; those below `zero` are noise. */
  readonly black: number;
  /** A mean up to this code counts as black. */
  readonly blackMean: number;
}

/** How a camera's own colours are to be understood. */
export interface RawColour {
  /** The camera's red, green and blue of what was to be neutral; `null` where the file does not say. */
  readonly neutral: Vector3 | null;
  /** Its chromaticity, where the file states that instead. */
  readonly whiteXy: readonly [number, number] | null;
  /** Empty where nothing is known of the camera. */
  readonly calibrations: readonly DngCalibration[];
}

/** What a camera's raw file says besides its samples. */
export interface StoredRaw {
  /** Of the picture as a photographer knows it; `samples` may be half as large. */
  readonly widthPx: number;
  readonly heightPx: number;
  /** How the samples came about: cells taken four and four, or developed by interpolation or its like. */
  readonly from: 'cells' | 'developed';
  /** Maker and model; empty where the file does not say. */
  readonly camera: string;
  readonly codes: RawCodes;
  readonly colour: RawColour;
  /** By how much black may be off, as a share of white; 0 where nothing speaks against it. */
  readonly blackDoubt: number;
}
