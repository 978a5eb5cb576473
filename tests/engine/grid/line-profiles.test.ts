import { describe, expect, test } from 'vitest';
import type { LinearFrame } from '../../../src/engine/frame/linear-frame.ts';
import { type LineProfile, lineProfiles, STRIPS } from '../../../src/engine/grid/line-profiles.ts';
import { WHOLE_FRAME } from '../../../src/engine/reading.ts';
import { BUSY } from '../../busy-machine.ts';
import { expectWithin } from '../../expect-within.ts';
import type { RenderedFrame } from '../../synthetic/render-frame.ts';
import { storedAs } from '../../synthetic/turn-frame.ts';
import { frameOfCodes } from './frame-of-codes.ts';

const [WIDTH_PX, HEIGHT_PX] = [83, 61];

/** A different code at every pixel, so that nothing can be exchanged unseen. */
const CODES: RenderedFrame = {
  widthPx: WIDTH_PX,
  heightPx: HEIGHT_PX,
  bits: 16,
  samples: Uint16Array.from(
    { length: 3 * WIDTH_PX * HEIGHT_PX },
    (_, i) => 1000 + Math.floor(i / 3) * 7 + (i % 3) * 40,
  ),
};

/** Mean green light of a part of the upright frame, pixel by pixel. */
function plainMean(x0: number, y0: number, x1: number, y1: number): number {
  let sum = 0;
  for (let y = y0; y < y1; y++)
    for (let x = x0; x < x1; x++) sum += CODES.samples[3 * (y * WIDTH_PX + x) + 1]! / 65535;
  return sum / ((x1 - x0) * (y1 - y0));
}

const strip = (k: number, from: number, to: number) => from + Math.floor((k * (to - from)) / STRIPS);
const at = ({ light, lines }: LineProfile, k: number, line: number) => light[k * lines + line]!;

describe('lineProfiles(frame, region)', () => {
  test('averages every line in every strip, over the region alone', () => {
    const region = { left: 10 / WIDTH_PX, top: 5 / HEIGHT_PX, right: 79 / WIDTH_PX, bottom: 50 / HEIGHT_PX };
    const { rows, columns } = lineProfiles(frameOfCodes(CODES, { isLinear: true }), region);
    expect([rows.lines, columns.lines]).toEqual([45, 69]);
    for (let k = 0; k < STRIPS; k++) {
      for (const line of [0, 17, 44])
        expectWithin(
          at(rows, k, line),
          plainMean(strip(k, 10, 79), 5 + line, strip(k + 1, 10, 79), 6 + line),
          1e-6,
        );
      for (const line of [0, 31, 68])
        expectWithin(
          at(columns, k, line),
          plainMean(10 + line, strip(k, 5, 50), 11 + line, strip(k + 1, 5, 50)),
          1e-6,
        );
    }
  });

  test.each([2, 3, 4, 5, 6, 7, 8])('reads orientation %i upright', (orientation) => {
    // sizes that the strips divide, so that they fall alike from either end
    const samples = Uint16Array.from({ length: 3 * 64 * 48 }, (_, i) => 1000 + i * 3);
    const upright: RenderedFrame = { widthPx: 64, heightPx: 48, bits: 16, samples };
    const plain = lineProfiles(frameOfCodes(upright), WHOLE_FRAME);
    const turned = lineProfiles(frameOfCodes(storedAs(upright, orientation), { orientation }), WHOLE_FRAME);
    for (const way of ['rows', 'columns'] as const) {
      expect(turned[way].lines).toBe(plain[way].lines);
      turned[way].light.forEach((light, i) => {
        expectWithin(light, plain[way].light[i]!, 1e-6);
      });
    }
  });

  test('averages a sixth of the rows of a tall frame into its columns, none of its strips left empty', () => {
    const samples = new Uint8Array(3 * 16 * 1000).fill(128);
    const { columns } = lineProfiles(
      frameOfCodes({ widthPx: 16, heightPx: 1000, bits: 8, samples }),
      WHOLE_FRAME,
    );
    for (const light of columns.light) expectWithin(light, 0.21586, 1e-5);
  });

  test('takes at most 60 ms over 24 megapixels', BUSY, () => {
    const table = Float64Array.from({ length: 256 }, (_, code) => code / 255);
    const frame = {
      ...frameOfCodes(CODES),
      widthPx: 6000,
      heightPx: 4000,
      channels: 4,
      bitsPerSample: 8,
      samples: new Uint8Array(6000 * 4000 * 4).fill(180),
      lightAtCode: { red: table, green: table, blue: table },
    } as LinearFrame;
    const times = Array.from({ length: 7 }, () => {
      const start = performance.now();
      lineProfiles(frame, WHOLE_FRAME);
      return performance.now() - start;
    }).sort((a, b) => a - b);
    console.log(
      `measured: line profiles of 24 megapixels in ${times[0]!.toFixed(0)} ms (fastest of 7), ${times[3]!.toFixed(0)} ms (median)`,
    );
    expect(times[0]).toBeLessThan(60);
  });
});
