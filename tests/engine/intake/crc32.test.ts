import { crc32 as referee } from 'node:zlib';
import { expect, test } from 'vitest';
import { crc32 } from '../../../src/engine/intake/crc32.ts';
import { noiseSamples } from './png-bytes.ts';

test('crc32(bytes) gives the published check value of "123456789"', () => {
  // G. Cook, "Catalogue of parametrised CRC algorithms", CRC-32/ISO-HDLC
  expect(crc32(Buffer.from('123456789'))).toBe(0xcbf43926);
});

test('crc32(bytes, from, to) agrees with zlib at every length and offset', () => {
  const bytes = Uint8Array.from(noiseSamples(300, 8));
  for (let from = 0; from < 9; from++)
    for (let to = from; to < 300; to += 7)
      expect(crc32(bytes, from, to)).toBe(referee(bytes.subarray(from, to)));
});
