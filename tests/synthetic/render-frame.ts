import { seededRandom } from '../../src/engine/numeric/seeded-random.ts';
import { codeRounder, type TransferCurve } from './code-thresholds.ts';
import { fieldRows } from './field-rows.ts';
import type { KnownField } from './known-field.ts';
import { cheapNormal, poissonElectrons } from './shot-noise.ts';
import type { ToneCurve } from './tone-curve.ts';

/** Something small in front of the light, edges hard at pixel centres; sizes in pixels of the upright frame. */
export interface Speck {
  readonly shape: 'disc' | 'box';
  /** Centre, 0 to 1. */
  readonly x: number;
  readonly y: number;
  readonly widthPx: number;
  readonly heightPx: number;
  /** Light behind it × this; 0 is opaque, over 1 a glint. */
  readonly transmission: number;
}

export interface RenderOptions {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly bits: 8 | 16;
  readonly curve: TransferCurve;
  /** Laid on what the sensor counted, before it is coded. */
  readonly tone?: ToneCurve;
  /** Electrons of light 1 in each channel, which sets the shot noise; `null`: none. */
  readonly electronsAtFull: number | null;
  /** Standard deviation added to every sample; only together with shot noise. */
  readonly readNoiseElectrons?: number;
  readonly seed: number;
  readonly specks?: readonly Speck[];
}

/** A frame as stored: interleaved RGB codes, row-major from the top left. */
export interface RenderedFrame {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly bits: 8 | 16;
  readonly samples: Uint8Array | Uint16Array;
}

/** Photographs a known field: light at pixel centres, specks, shot and read noise, clipping, the nearest code. */
export function renderFrame(field: KnownField, options: RenderOptions): RenderedFrame {
  const { widthPx, heightPx, bits, curve, electronsAtFull, readNoiseElectrons = 0, specks = [] } = options;
  const samples =
    bits === 8 ? new Uint8Array(widthPx * heightPx * 3) : new Uint16Array(widthPx * heightPx * 3);
  const random = seededRandom(options.seed);
  const normal = cheapNormal(random);
  const nearest = codeRounder(bits, curve);
  const { tone } = options;
  const codeOf = tone ? (counted: number) => nearest(tone(counted)) : nearest;
  const fillRow = fieldRows(field, widthPx, heightPx);
  const light = new Float64Array(widthPx * 3);
  for (let row = 0, at = 0; row < heightPx; row++) {
    fillRow(light, (row + 0.5) / heightPx);
    for (const speck of specks) shadeRow(light, speck, row, widthPx, heightPx);
    if (electronsAtFull === null) {
      for (let i = 0; i < light.length; i++) samples[at++] = codeOf(light[i]!);
      continue;
    }
    for (let i = 0; i < light.length; i++) {
      const electrons = poissonElectrons(Math.max(0, light[i]!) * electronsAtFull, normal, random);
      const read = readNoiseElectrons > 0 ? readNoiseElectrons * normal() : 0;
      samples[at++] = codeOf((electrons + read) / electronsAtFull);
    }
  }
  return { widthPx, heightPx, bits, samples };
}

function shadeRow(light: Float64Array, speck: Speck, row: number, widthPx: number, heightPx: number): void {
  const halfWidthPx = speck.widthPx / 2;
  const halfHeightPx = speck.heightPx / 2;
  const down = (row + 0.5 - speck.y * heightPx) / halfHeightPx;
  if (Math.abs(down) > 1) return;
  const reachPx = speck.shape === 'box' ? halfWidthPx : halfWidthPx * Math.sqrt(1 - down * down);
  const centrePx = speck.x * widthPx;
  const first = Math.max(0, Math.ceil(centrePx - reachPx - 0.5));
  const last = Math.min(widthPx - 1, Math.floor(centrePx + reachPx - 0.5));
  for (let i = first * 3; i < (last + 1) * 3; i++) light[i]! *= speck.transmission;
}
