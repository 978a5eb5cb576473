import type { LinearFrame } from '../frame/linear-frame.ts';
import type { FrameGains } from './frame-gains.ts';
import { fillGainRow } from './gain-row.ts';
import type { ShareOfBackground } from './share-of-background.ts';
import type { SpaceChange } from './space-change.ts';

type Rows = readonly [red: Float64Array, green: Float64Array, blue: Float64Array];

/** A frame's corrected linear light, row by row as stored; the rows handed out are filled anew by the next call. */
export interface LightRows {
  fill(row: number): Rows;
}

/** Corrected = light + share × light × (gain − 1). Grey fills its one row only, and hands it out three times. */
export function lightRows(frame: LinearFrame, gains: FrameGains, share: ShareOfBackground | null): LightRows {
  const { widthPx, heightPx, channels: step } = frame;
  const samples = plainBytes(frame.samples);
  const isGrey = gains.channels.length === 1;
  const newRows = (): Rows => [
    new Float64Array(widthPx),
    new Float64Array(widthPx),
    new Float64Array(widthPx),
  ];
  const light = newRows();
  const gain = newRows();
  const shares = newRows();
  const out: Rows = isGrey ? [light[1], light[1], light[1]] : light;
  const { red, green, blue } = frame.lightAtCode;
  return {
    fill(row) {
      gains.channels.forEach((channel, at) => {
        fillGainRow(channel, row, heightPx, gain[at]!);
      });
      const start = row * widthPx * step;
      if (isGrey) fillLight(light[1], samples, green, start, step);
      else {
        fillLight(light[0], samples, red, start, step);
        fillLight(light[1], samples, green, start + 1, step);
        fillLight(light[2], samples, blue, start + 2, step);
      }
      if (share) share(row, ...shares);
      if (gains.space) throughSpace(light, gain, share && shares, gains.space);
      else if (isGrey) multiply(light[1], gain[0], share && shares[1]);
      else for (const at of [0, 1, 2] as const) multiply(light[at], gain[at], share && shares[at]);
      return out;
    },
  };
}

function fillLight(
  into: Float64Array,
  samples: Uint8Array | Uint16Array,
  lightAtCode: Float64Array,
  start: number,
  step: number,
): void {
  for (let i = 0, at = start; i < into.length; i++, at += step) into[i] = lightAtCode[samples[at]!]!;
}

function multiply(light: Float64Array, gain: Float64Array, share: Float64Array | null): void {
  if (!share) for (let i = 0; i < light.length; i++) light[i]! *= gain[i]!;
  else for (let i = 0; i < light.length; i++) light[i]! *= 1 + share[i]! * (gain[i]! - 1);
}

function throughSpace(light: Rows, gain: Rows, share: Rows | null, { there: m, back: n }: SpaceChange): void {
  const [red, green, blue] = light;
  for (let i = 0; i < red.length; i++) {
    const [r, g, b] = [red[i]!, green[i]!, blue[i]!];
    const x = gain[0][i]! * (m[0] * r + m[1] * g + m[2] * b);
    const y = gain[1][i]! * (m[3] * r + m[4] * g + m[5] * b);
    const z = gain[2][i]! * (m[6] * r + m[7] * g + m[8] * b);
    const [newRed, newGreen, newBlue] = [
      n[0] * x + n[1] * y + n[2] * z,
      n[3] * x + n[4] * y + n[5] * z,
      n[6] * x + n[7] * y + n[8] * z,
    ];
    red[i] = share ? r + share[0][i]! * (newRed - r) : newRed;
    green[i] = share ? g + share[1][i]! * (newGreen - g) : newGreen;
    blue[i] = share ? b + share[2][i]! * (newBlue - b) : newBlue;
  }
}

/** Clamped bytes are the same bytes; fewer kinds of arrays keep the loops fast. */
export function plainBytes(samples: LinearFrame['samples']): Uint8Array | Uint16Array {
  if (samples instanceof Uint8ClampedArray)
    return new Uint8Array(samples.buffer, samples.byteOffset, samples.length);
  return samples;
}
