import type { Profile } from '../../../src/engine/profile/profile.ts';
import { lightOfCode } from '../../synthetic/code-thresholds.ts';
import type { RenderedFrame } from '../../synthetic/render-frame.ts';

/** What ten lines written from the public contract alone make of a frame of sRGB codes: linear RGB, interleaved. */
export function correctedFrame(frame: RenderedFrame, { lattice, neutral }: Profile): Float64Array {
  const channels = [lattice.red, lattice.green, lattice.blue];
  const white = [neutral.red, neutral.green, neutral.blue];
  return Float64Array.from(frame.samples, (code, at) => {
    const pixel = Math.floor(at / 3);
    const fx = (((pixel % frame.widthPx) + 0.5) / frame.widthPx) * (lattice.columns - 1);
    const fy = ((Math.floor(pixel / frame.widthPx) + 0.5) / frame.heightPx) * (lattice.rows - 1);
    const [c, r] = [Math.floor(fx), Math.floor(fy)];
    const node = (i: number, j: number) => channels[at % 3]![(r + j) * lattice.columns + c + i]!;
    const upper = node(0, 0) + (fx - c) * (node(1, 0) - node(0, 0));
    const lower = node(0, 1) + (fx - c) * (node(1, 1) - node(0, 1));
    return lightOfCode(code, frame.bits, 'srgb') * white[at % 3]! * 2 ** (upper + (fy - r) * (lower - upper));
  });
}
