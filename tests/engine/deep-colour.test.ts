import { expect, test } from 'vitest';
import { toPng } from '../synthetic/encode.ts';
import { renderFrame } from '../synthetic/render-frame.ts';
import { readBytes } from './known-frames.ts';

test.each([
  ['a blue gel', [0, 0.25, 0.6], 8],
  ['a blue gel', [0, 0.25, 0.6], 16],
  ['a red safelight', [0.6, 0, 0], 8],
] as const)(
  'readFrame reads %s, black in a channel (%o), at %i bits: falloff as planted',
  async (_, rgb, bits) => {
    const field = (x: number) => {
      const level = 2 ** -x;
      return [rgb[0] * level, rgb[1] * level, rgb[2] * level] as const;
    };
    const frame = renderFrame(field, {
      widthPx: 480,
      heightPx: 320,
      bits,
      curve: 'srgb',
      electronsAtFull: 30_000,
      seed: 1,
    });
    const { reading } = await readBytes(toPng(frame));
    expect(Math.abs(reading.falloff.spreadEv - 59 / 60)).toBeLessThan(0.02);
    expect(reading.verdict.neutral).toBe('no');
  },
);
