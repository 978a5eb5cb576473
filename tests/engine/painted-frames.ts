import type { RenderedFrame } from '../synthetic/render-frame.ts';

/** A frame whose every sample comes from its pixel. */
export function painted(
  widthPx: number,
  heightPx: number,
  bits: 8 | 16,
  code: (xPx: number, yPx: number, channel: number) => number,
): RenderedFrame {
  const samples = new (bits === 8 ? Uint8Array : Uint16Array)(widthPx * heightPx * 3);
  for (let at = 0; at < samples.length; at++) {
    const pixel = Math.floor(at / 3);
    samples[at] = code(pixel % widthPx, Math.floor(pixel / widthPx), at % 3);
  }
  return { widthPx, heightPx, bits, samples };
}

/** The same code in every sample. */
export const flat = (code: number, bits: 8 | 16 = 8, widthPx = 96, heightPx = 64) =>
  painted(widthPx, heightPx, bits, () => code);

/** From code 120 on the left (or top) to 180. */
export const ramp = (x: number, width: number) => 120 + Math.round((60 * x) / width);
