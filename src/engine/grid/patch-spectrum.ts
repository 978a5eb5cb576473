import type { LinearFrame } from '../frame/linear-frame.ts';
import { fastFourier } from '../numeric/fast-fourier.ts';
import { quantile } from '../numeric/quantile.ts';
import type { FrameRectangle } from '../reading.ts';
import { storedRegion } from './stored-region.ts';

/** Side of a patch; waves repeat 1 to 32 times in it. */
export const PATCH_PX = 64;
/** Waves in a patch along x: 0 to 32. Along y: all 64, those over 32 standing for waves the other way. */
export const WAVES_ACROSS = PATCH_PX / 2 + 1;

const MOST_ACROSS = 6;
const MOST_DOWN = 4;
/** Of the patches' powers the one that two thirds of them exceed: what shows in part of the frame does not count. */
const ALIKE_QUANTILE = 1 / 3;

/** How strong waves of every fineness and direction are in patches over the whole region. */
export interface PatchSpectrum {
  readonly patches: number;
  /**
   * Power of relative light (1 is the patch's mean) that two thirds of the patches exceed, {@link PATCH_PX} rows of
   * {@link WAVES_ACROSS}, in the stored frame's directions. Noise of relative variance v has v at each.
   */
  readonly power: Float32Array;
  /** Relative standard deviation of single pixels by what no wave explains: the middle of all powers. */
  readonly pixelNoise: number;
}

/** Looks for fine waves in up to 6 × 4 patches spread over the region; `null` where not one fits. */
export function patchSpectrum(frame: LinearFrame, region: FrameRectangle): PatchSpectrum | null {
  const { x0, y0, x1, y1 } = storedRegion(frame, region);
  const across = Math.min(MOST_ACROSS, Math.floor((x1 - x0) / PATCH_PX));
  const down = Math.min(MOST_DOWN, Math.floor((y1 - y0) / PATCH_PX));
  if (across < 1 || down < 1) return null;
  const powers: Float32Array[] = [];
  for (let row = 0; row < down; row++) {
    for (let column = 0; column < across; column++) {
      const x = x0 + Math.round(((column + 0.5) * (x1 - x0)) / across - PATCH_PX / 2);
      const y = y0 + Math.round(((row + 0.5) * (y1 - y0)) / down - PATCH_PX / 2);
      const power = patchPower(frame, Math.max(x0, x), Math.max(y0, y));
      if (power) powers.push(averagedOverNeighbours(power));
    }
  }
  if (powers.length === 0) return null;
  const one = new Float64Array(powers.length);
  const power = Float32Array.from(powers[0]!, (_, wave) => {
    for (let patch = 0; patch < one.length; patch++) one[patch] = powers[patch]![wave]!;
    return quantile(one, ALIKE_QUANTILE);
  });
  return { patches: powers.length, power, pixelNoise: Math.sqrt(quantile(power, 0.5)) };
}

const TAPER = Float64Array.from(
  { length: PATCH_PX },
  (_, i) => 0.5 - 0.5 * Math.cos((2 * Math.PI * (i + 0.5)) / PATCH_PX),
);
const TAPER_SQUARES = TAPER.reduce((sum, value) => sum + value * value, 0) ** 2;

/** Power at every wave of one patch, its own plane of light taken out first; `null` where it has no light or clips. */
function patchPower(frame: LinearFrame, x0: number, y0: number): Float32Array | null {
  const { samples, channels, widthPx, lightAtCode, clipCode, floorCode } = frame;
  const marks = frame.fileCodes?.extremes;
  const green = channels < 3 ? 0 : 1;
  const values = new Float64Array(PATCH_PX * PATCH_PX);
  const middle = (PATCH_PX - 1) / 2;
  let sum = 0;
  let alongX = 0;
  let alongY = 0;
  for (let y = 0, at = 0; y < PATCH_PX; y++) {
    let i = ((y0 + y) * widthPx + x0) * channels + green;
    for (let x = 0; x < PATCH_PX; x++, at++, i += channels) {
      const code = samples[i]!;
      if (code >= clipCode || code <= floorCode || marks?.[(y0 + y) * widthPx + x0 + x]) return null;
      const light = lightAtCode.green[code]!;
      values[at] = light;
      sum += light;
      alongX += (x - middle) * light;
      alongY += (y - middle) * light;
    }
  }
  const mean = sum / values.length;
  const squares = (values.length * (PATCH_PX * PATCH_PX - 1)) / 12;
  const real: Float64Array[] = [];
  const imaginary: Float64Array[] = [];
  for (let y = 0, at = 0; y < PATCH_PX; y++) {
    const line = new Float64Array(PATCH_PX);
    for (let x = 0; x < PATCH_PX; x++, at++) {
      const plane = mean + (alongX * (x - middle) + alongY * (y - middle)) / squares;
      line[x] = ((values[at]! - plane) / mean) * TAPER[x]! * TAPER[y]!;
    }
    real.push(line);
    imaginary.push(new Float64Array(PATCH_PX));
    fastFourier(line, imaginary[y]!);
  }
  const power = new Float32Array(PATCH_PX * WAVES_ACROSS);
  const re = new Float64Array(PATCH_PX);
  const im = new Float64Array(PATCH_PX);
  for (let x = 0; x < WAVES_ACROSS; x++) {
    for (let y = 0; y < PATCH_PX; y++) {
      re[y] = real[y]![x]!;
      im[y] = imaginary[y]![x]!;
    }
    fastFourier(re, im);
    for (let y = 0; y < PATCH_PX; y++)
      power[y * WAVES_ACROSS + x] = (re[y]! ** 2 + im[y]! ** 2) / TAPER_SQUARES;
  }
  return power;
}

/** Mean over 3 × 3 waves: chance moves a single one's power by as much as itself. */
function averagedOverNeighbours(power: Float32Array): Float32Array {
  return power.map((_, wave) => {
    const x = wave % WAVES_ACROSS;
    const y = (wave - x) / WAVES_ACROSS;
    let sum = 0;
    for (let dy = -1; dy <= 1; dy++) for (let dx = -1; dx <= 1; dx++) sum += power[waveAt(x + dx, y + dy)]!;
    return sum / 9;
  });
}

/** Where a wave stands in the spectrum of real light, which repeats, and reads alike through its middle. */
export function waveAt(x: number, y: number): number {
  const turned = x < 0 || x >= WAVES_ACROSS;
  const across = x < 0 ? -x : turned ? PATCH_PX - x : x;
  const down = (turned ? PATCH_PX - y : y) & (PATCH_PX - 1);
  return down * WAVES_ACROSS + across;
}
