import type { LinearFrame } from '../frame/linear-frame.ts';
import { codingPlanes } from './coding-planes.ts';

/** Triples of pixels that are compared; more would tell no more. */
const TRIPLES = 20_000;
/** Three such steps stay within a JPEG's block, and each passes over what half-resolution chroma is interpolated from. */
const APART_PX = 3;
/** Share of the largest differences left out: specks, edges and steps between plateaux. */
const LEFT_OUT_SHARE = 0.05;

/** Of a second difference of values of variance 1: 1 + 4 + 1. */
const SECOND_DIFFERENCE_VARIANCE = 6;

/**
 * Variance of single pixels in a JPEG's luma and chroma, in codes², from second differences of pixels a few apart,
 * which no slope moves. This is what dithers the rounding of decoded pixels; near 0 where the compression took the noise. `null` where the picture is
 * too narrow to tell.
 */
export function planeNoise(frame: LinearFrame): readonly [number, number, number] | null {
  const { widthPx, heightPx, samples, channels } = frame;
  const usable = widthPx - 2 * APART_PX;
  if (usable < 1) return null;
  const { toPlanes: m } = codingPlanes(frame);
  const stride = Math.max(1, Math.floor((usable * heightPx) / TRIPLES));
  const second = channels < 3 ? 0 : 1;
  const third = channels < 3 ? 0 : 2;
  const squares: [number[], number[], number[]] = [[], [], []];
  for (let place = 0; place < usable * heightPx; place += stride) {
    const i = (Math.floor(place / usable) * widthPx + (place % usable)) * channels;
    const j = i + APART_PX * channels;
    const k = j + APART_PX * channels;
    const red = samples[i]! - 2 * samples[j]! + samples[k]!;
    const green = samples[i + second]! - 2 * samples[j + second]! + samples[k + second]!;
    const blue = samples[i + third]! - 2 * samples[j + third]! + samples[k + third]!;
    for (let p = 0; p < 3; p++) {
      squares[p]!.push((m[3 * p]! * red + m[3 * p + 1]! * green + m[3 * p + 2]! * blue) ** 2);
    }
  }
  const variance = (values: number[]) => {
    const kept = values.sort((a, b) => a - b).slice(0, Math.ceil((1 - LEFT_OUT_SHARE) * values.length));
    return kept.reduce((sum, value) => sum + value, 0) / kept.length / SECOND_DIFFERENCE_VARIANCE;
  };
  return [variance(squares[0]), variance(squares[1]), variance(squares[2])];
}
