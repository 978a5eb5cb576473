import { isMarked } from '../frame/is-marked.ts';
import type { LinearFrame } from '../frame/linear-frame.ts';
import type { Matrix3 } from '../numeric/matrix3.ts';
import { type CodeFinder, codeFinder, codeOfLight } from './code-finder.ts';
import type { FrameGains } from './frame-gains.ts';
import { lightRows, plainBytes } from './light-rows.ts';
import type { ShareOfBackground } from './share-of-background.ts';

/** How the corrected light is to be coded. */
export interface OutCoding {
  /** As in the source's file: a JPEG is decoded to four and written as three, or as one where it is grey. */
  readonly channels: 1 | 2 | 3 | 4;
  readonly bitsPerSample: 8 | 16;
  /** Linear light of every code of that depth. */
  readonly lightAtCode: LinearFrame['lightAtCode'];
  /** From the frame's linear RGB to that which is written; left out or `null` where they are one. */
  readonly toWritten?: Matrix3 | null;
}

export interface CodedLight {
  readonly samples: Uint8Array | Uint16Array;
  /** Pixels that the file already held clipped. */
  readonly clippedBefore: number;
  /** Others that the gains take beyond white. */
  readonly clippedPixels: number;
}

/**
 * Applies gains to a frame's linear light and codes it again. Dithered by up to one code, evenly distributed, so that
 * the mean of what is written is the light itself; a frame's dither is the same every time. Alpha stays as it is.
 */
export function applyGains(
  frame: LinearFrame,
  gains: FrameGains,
  out: OutCoding,
  share: ShareOfBackground | null = null,
  onProgress: (fraction: number) => void = () => {},
): CodedLight {
  const { widthPx, heightPx, channels, clipCode } = frame;
  const source = plainBytes(frame.samples);
  const length = widthPx * heightPx * out.channels;
  const samples = out.bitsPerSample === 8 ? new Uint8Array(length) : new Uint16Array(length);
  const isGrey = gains.channels.length === 1;
  const [redCodes, greenCodes, blueCodes] = findersOf(out.lightAtCode);
  const rows = lightRows(frame, gains, share);
  const random = new Int32Array(widthPx);
  const dither = ditherSource();
  const hasAlpha = out.channels === 2 || out.channels === 4;
  let clippedBefore = 0;
  let clippedPixels = 0;
  for (let row = 0; row < heightPx; row++) {
    const [red, green, blue] = rows.fill(row);
    for (let i = 0, at = row * widthPx * channels; i < widthPx; i++, at += channels) {
      const isClipped =
        isMarked(frame, row * widthPx + i) ||
        source[at]! >= clipCode ||
        (!isGrey && (source[at + 1]! >= clipCode || source[at + 2]! >= clipCode));
      if (isClipped) clippedBefore++;
      else if (red[i]! > 1 || green[i]! > 1 || blue[i]! > 1) clippedPixels++;
    }
    if (out.toWritten) change(red, green, blue, out.toWritten);
    dither(random);
    const start = row * widthPx * out.channels;
    if (isGrey) writeRow(samples, start, out.channels, green, greenCodes, random, 0);
    else {
      writeRow(samples, start, out.channels, red, redCodes, random, 0);
      writeRow(samples, start + 1, out.channels, green, greenCodes, random, 10);
      writeRow(samples, start + 2, out.channels, blue, blueCodes, random, 20);
    }
    if (hasAlpha) copyAlpha(frame, row, out, samples);
    if (row % 256 === 0) onProgress(row / heightPx);
  }
  onProgress(1);
  return { samples, clippedBefore, clippedPixels };
}

function change(red: Float64Array, green: Float64Array, blue: Float64Array, m: Matrix3): void {
  for (let i = 0; i < red.length; i++) {
    const [r, g, b] = [red[i]!, green[i]!, blue[i]!];
    red[i] = m[0] * r + m[1] * g + m[2] * b;
    green[i] = m[3] * r + m[4] * g + m[5] * b;
    blue[i] = m[6] * r + m[7] * g + m[8] * b;
  }
}

/** Ten bits of one random number serve each of three channels. */
const DITHER_STEPS = 1024;
/** So that the mean over the steps is exactly half a code. */
const HALF_STEP = 0.5 / DITHER_STEPS;

function writeRow(
  samples: Uint8Array | Uint16Array,
  start: number,
  step: number,
  light: Float64Array,
  codes: CodeFinder,
  random: Int32Array,
  shift: number,
): void {
  for (let i = 0, at = start; i < light.length; i++, at += step) {
    const dither = ((random[i]! >>> shift) & (DITHER_STEPS - 1)) / DITHER_STEPS + HALF_STEP;
    samples[at] = codeOfLight(codes, light[i]!) + dither; // what stands after the point is cut off
  }
}

function findersOf({ red, green, blue }: LinearFrame['lightAtCode']): [CodeFinder, CodeFinder, CodeFinder] {
  const middle = codeFinder(green);
  return [red === green ? middle : codeFinder(red), middle, blue === green ? middle : codeFinder(blue)];
}

/** Source: G. Marsaglia, "Xorshift RNGs", J. Stat. Software 8(14), 2003 (the 32-bit generator 13, 17, 5). */
function ditherSource(): (into: Int32Array) => void {
  let state = 0x2f6e2b1;
  return (into) => {
    let x = state;
    for (let i = 0; i < into.length; i++) {
      x ^= x << 13;
      x ^= x >>> 17;
      x ^= x << 5;
      into[i] = x;
    }
    state = x;
  };
}

function copyAlpha(
  { widthPx, channels, samples, bitsPerSample }: LinearFrame,
  row: number,
  out: OutCoding,
  written: Uint8Array | Uint16Array,
): void {
  const scale = (2 ** out.bitsPerSample - 1) / (2 ** bitsPerSample - 1);
  let from = row * widthPx * channels + channels - 1;
  let to = row * widthPx * out.channels + out.channels - 1;
  for (let i = 0; i < widthPx; i++, from += channels, to += out.channels)
    written[to] = Math.round(samples[from]! * scale);
}
