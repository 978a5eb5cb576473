import { seededRandom } from '../../../src/engine/numeric/seeded-random.ts';
import { codeRounder } from '../../synthetic/code-thresholds.ts';
import type { RenderedFrame } from '../../synthetic/render-frame.ts';
import { cheapNormal, poissonElectrons } from '../../synthetic/shot-noise.ts';

export interface NoisyCells {
  /** Linear light at pixel (x, y). */
  readonly light: (xPx: number, yPx: number) => number;
  readonly widthPx: number;
  readonly heightPx: number;
  readonly bits: 8 | 16;
  /** Electrons of light 1; `null`: no noise. */
  readonly electronsAtFull: number | null;
  readonly seed: number;
}

/** Photographs the same light again, with the same noise, behind something that lets a share of it through. */
export type Photographer = (transmission?: (xPx: number, yPx: number) => number) => RenderedFrame;

/**
 * Photographs grey light by the sRGB curve, pixel by pixel, every channel with shot noise of its own. A sample's
 * noise is drawn once and scaled to what light is left, so that a cover changes the pixels it covers and no other.
 */
export function noisyCells(options: NoisyCells): Photographer {
  const { light, widthPx, heightPx, bits, electronsAtFull, seed } = options;
  const round = codeRounder(bits, 'srgb');
  const random = seededRandom(seed);
  const normal = cheapNormal(random);
  const count = widthPx * heightPx * 3;
  const noise = new Float64Array(count);
  const clear = bits === 8 ? new Uint8Array(count) : new Uint16Array(count);
  for (let at = 0; at < count; at++) {
    const level = light(Math.floor(at / 3) % widthPx, Math.floor(at / 3 / widthPx));
    if (electronsAtFull !== null) {
      const electrons = level * electronsAtFull;
      noise[at] = (poissonElectrons(electrons, normal, random) - electrons) / electronsAtFull;
    }
    clear[at] = round(level + noise[at]!);
  }
  return (transmission) => {
    const samples = clear.slice();
    for (let pixel = 0; transmission && pixel < widthPx * heightPx; pixel++) {
      const [x, y] = [pixel % widthPx, Math.floor(pixel / widthPx)];
      const share = transmission(x, y);
      if (share === 1) continue;
      const level = light(x, y) * share;
      for (let at = 3 * pixel; at < 3 * pixel + 3; at++)
        samples[at] = round(level + noise[at]! * Math.sqrt(share));
    }
    return { widthPx, heightPx, bits, samples };
  };
}
