import { expect, test } from 'vitest';
import { eachColourOnce } from '../../../src/engine/frame/each-colour-once.ts';
import type { ProfileTables } from '../../../src/engine/intake/platform.ts';
import { seededRandom } from '../../../src/engine/numeric/seeded-random.ts';

/** Tables that count what they are asked. */
function counted() {
  let asked = 0;
  const tables: ProfileTables = {
    toXyz(codes) {
      asked += codes.length / 3;
      return Float32Array.from(codes, (code, i) => code * (1 + (i % 3)) + 0.5);
    },
    close() {},
  };
  return { tables, asked: () => asked };
}

/** 8-bit codes spread over 16 bits, of so many colours at most. */
function drawn(pixels: number, levels: number, seed: number): Uint16Array {
  const { uniform } = seededRandom(seed);
  return Uint16Array.from({ length: 3 * pixels }, () => 257 * Math.floor(uniform() * levels));
}

test('eachColourOnce(tables) gives what the tables give, and asks them for each colour once', () => {
  const { tables, asked } = counted();
  const toXyz = eachColourOnce(tables);
  for (const seed of [1, 2, 3]) {
    const codes = drawn(20_000, 20, seed);
    expect(toXyz(codes)).toEqual(counted().tables.toXyz(codes));
  }
  expect(asked()).toBeLessThanOrEqual(20 ** 3);
  expect(asked()).toBeGreaterThan(0.9 * 20 ** 3);
});

test('eachColourOnce(tables) asks for every pixel where there are more colours than it remembers', () => {
  const { tables, asked } = counted();
  const toXyz = eachColourOnce(tables);
  for (let seed = 1; seed <= 10; seed++) {
    const codes = drawn(65_536, 256, seed);
    expect(toXyz(codes)).toEqual(counted().tables.toXyz(codes));
  }
  expect(asked()).toBeGreaterThan(600_000);
});
