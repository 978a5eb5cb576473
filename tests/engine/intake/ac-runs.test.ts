import { expect, test } from 'vitest';
import { acRuns, ENDS_BLOCK, PLACES } from '../../../src/engine/intake/ac-runs.ts';
import { huffmanCodes } from '../../../src/engine/intake/huffman-codes.ts';

/** 00 one bit, 01 two bits, 100 end of block, 101 one bit after one zero, 1100 sixteen zeros, 1101 ten bits; 111 is no code. */
const CODES = huffmanCodes(
  Uint8Array.of(0, 2, 2, 2, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0),
  Uint8Array.of(0x01, 0x02, 0x00, 0x11, 0xf0, 0x0a),
);
const RUNS = acRuns(CODES);

/** Reads a run off 16 bits written with spaces. */
function runOf(bits: string): { bits: number; places: number; ends: boolean } {
  const run = RUNS[Number.parseInt(bits.replaceAll(' ', ''), 2)]!;
  return { bits: run >> 8, places: run & PLACES, ends: (run & ENDS_BLOCK) !== 0 };
}

test.each([
  ['two coefficients and the end of the block', '00 1 01 10 100 000000', 10, 3, true],
  ['nothing behind the end of the block', '100 00 1 00 1 00 1 00 1 0', 3, 1, true],
  ['zeros before a coefficient', '101 1 101 0 100 11111', 11, 5, true],
  ['a coefficient whose value is cut off is left', '1101 0000000000 00', 14, 1, false],
  ['a code that is cut off is left', '00 1 00 1 00 1 00 1 00 1 1', 15, 5, false],
  ['no more places than a block has', '1100 1100 1100 1100', 12, 48, false],
  ['what is no code stops it', '01 11 111 000000000', 4, 1, false],
  ['what is no code at once is no run', '111 1111111111111', 0, 0, false],
] as const)('acRuns(codes) takes together %s', (_, written, bits, places, ends) => {
  expect(runOf(written)).toEqual({ bits, places, ends });
});

test('acRuns(codes) is made once for a table', () => {
  expect(acRuns(CODES)).toBe(RUNS);
});
