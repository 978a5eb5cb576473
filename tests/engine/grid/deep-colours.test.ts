import { expect, test } from 'vitest';
import { countDeepColours, DEEP_BIN_CODES, emptyDeepSums } from '../../../src/engine/grid/deep-colours.ts';
import { seededRandom } from '../../../src/engine/numeric/seeded-random.ts';
import { expectWithin } from '../../expect-within.ts';
import { frameOfCodes } from './frame-of-codes.ts';

const [WIDTH, HEIGHT] = [40, 30];
const CELL = { x0: 7, x1: 31, y0: 4, y1: 25 };

test.each([3, 4] as const)(
  'countDeepColours counts and sums a cell of %i channels as pixel by pixel',
  (channels) => {
    const random = seededRandom(21);
    const samples = Uint16Array.from({ length: WIDTH * HEIGHT * channels }, (_, i) =>
      Math.round([30_000, 42_000, 21_000, 65_535][i % channels]! - 3000 * random.uniform()),
    );
    const plain = frameOfCodes({ widthPx: WIDTH, heightPx: HEIGHT, bits: 16, samples: new Uint16Array(0) });
    const frame = { ...plain, channels, samples };
    const bins = 65536 / DEEP_BIN_CODES;
    const counts = new Uint32Array(3 * bins);
    const sums = emptyDeepSums();
    countDeepColours(frame, CELL, counts, sums);
    const { red, green, blue } = frame.lightAtCode;
    [red, green, blue].forEach((light, bank) => {
      const expected = new Uint32Array(bins);
      let sum = 0;
      let squares = 0;
      for (let y = CELL.y0; y < CELL.y1; y++)
        for (let x = CELL.x0; x < CELL.x1; x++) {
          const code = samples[(y * WIDTH + x) * channels + bank]!;
          expected[Math.floor(code / DEEP_BIN_CODES)]!++;
          sum += light[code]! - sums.reference[bank]!;
          squares += (light[code]! - sums.reference[bank]!) ** 2;
        }
      expect(counts.subarray(bank * bins, (bank + 1) * bins)).toEqual(expected);
      expectWithin(sums.light[bank]!, sum, 1e-12);
      expectWithin(sums.squares[bank]!, squares, 1e-12);
      expect(sums.reference[bank]).toBeGreaterThan(0.05); // a pixel's own light, so that little is left to sum
    });
  },
);
