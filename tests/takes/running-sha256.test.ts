import { createHash } from 'node:crypto';
import { expect, test } from 'vitest';
import { seededRandom } from '../../src/engine/numeric/seeded-random.ts';
import { RunningSha256 } from '../../src/takes/running-sha256.ts';

function digestOf(...pieces: Uint8Array[]): string {
  const running = new RunningSha256();
  for (const piece of pieces) running.add(piece);
  return running.digest();
}

test('gives what the standard’s own examples give', () => {
  const text = (of: string) => new TextEncoder().encode(of);
  expect(digestOf(text('abc'))).toBe('ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad');
  expect(digestOf(text('abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq'))).toBe(
    '248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1',
  );
  expect(digestOf()).toBe('e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855');
});

test('agrees with another implementation at every length about a block, however the bytes come', () => {
  const random = seededRandom(8);
  for (let length = 0; length < 300; length++) {
    const bytes = Uint8Array.from({ length }, () => random.uniform() * 256);
    const [one, other] = [random.uniform() * length, random.uniform() * length].sort((a, b) => a - b);
    const expected = createHash('sha256').update(bytes).digest('hex');
    expect(digestOf(bytes)).toBe(expected);
    expect(digestOf(bytes.subarray(0, one), bytes.subarray(one, other), bytes.subarray(other))).toBe(
      expected,
    );
  }
});

test('of many megabytes', () => {
  const bytes = new Uint8Array(16 * 2 ** 20).map((_, i) => i * 7);
  const began = performance.now();
  const digest = digestOf(bytes);
  console.log(`measured: SHA-256 of 16 MB in ${(performance.now() - began).toFixed(0)} ms`);
  expect(digest).toBe(createHash('sha256').update(bytes).digest('hex'));
});
