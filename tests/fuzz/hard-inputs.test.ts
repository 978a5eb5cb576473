import { readFileSync, rmSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { fileKinds } from './file-kinds.ts';
import { frameKinds } from './frame-kinds.ts';
import { jobKinds } from './job-kinds.ts';
import { type InputKind, LONGEST_MS, runInputs, tallySays } from './run-inputs.ts';
import { valueKinds } from './value-kinds.ts';

const IS_WHOLE_RUN = process.env.MODE === 'fuzz';
/** Inputs a kind; `npm run fuzz` goes on where the suite stops. */
const COUNT = Number(process.env.EVENFIELD_FUZZ_COUNT ?? (IS_WHOLE_RUN ? 400 : 16));
const FIRST_SEED = Number(process.env.EVENFIELD_FUZZ_SEED ?? 1);
/** A run may hold this much more than before it, and be at this much more in between. */
const MOST_LEFT_BYTES = 300 * 2 ** 20;
const MOST_BYTES = 1500 * 2 ** 20;

const kinds: InputKind<never>[] = [...(await fileKinds()), ...frameKinds, ...valueKinds, ...jobKinds];

describe('every hard input ends within its time in a whole result or in an error with a code:', () => {
  test.each(kinds.map((kind) => [kind.name, kind] as const))(
    '%s',
    async (name, kind) => {
      const tally = await runInputs(
        kind,
        Array.from({ length: COUNT }, (_, i) => FIRST_SEED + i),
      );
      console.log(tallySays(name, tally));
      expect(tally.wrong).toEqual([]);
      expect(tally.slowestMs).toBeLessThan(LONGEST_MS);
      expect(tally.memory.highest - tally.memory.before).toBeLessThan(MOST_BYTES);
      expect(tally.memory.after - tally.memory.before).toBeLessThan(MOST_LEFT_BYTES);
    },
    3_600_000,
  );
});

test('work is measured by what was computed, not by what was waited for', async () => {
  const kind = (name: string, end: () => Promise<string>): InputKind<number> => ({
    ...{ name, end, make: (_random, seed) => seed, bytes: (seed) => Uint8Array.of(seed) },
  });
  const waiting = kind('made to wait', () => new Promise((done) => setTimeout(() => done('read'), 1500)));
  const working = kind('made to work', async () => {
    const began = process.cpuUsage().user;
    while (process.cpuUsage().user - began < 400_000);
    return 'read';
  });
  expect((await runInputs(waiting, [1])).slowestMs).toBeLessThan(1000);
  expect((await runInputs(working, [1])).slowestMs).toBeGreaterThan(400);
});

test('an ending that is not right is told, and its input written down', async () => {
  const kind: InputKind<number> = {
    name: 'made to fail',
    make: (_random, seed) => seed,
    end: async (seed) => (seed === 3 ? Promise.reject(new TypeError('a slip of ours')) : 'read'),
    bytes: (seed) => Uint8Array.of(seed),
  };
  const { wrong, endings } = await runInputs(kind, [2, 3, 4]);
  expect(wrong).toEqual([expect.stringContaining('made to fail 3: TypeError: a slip of ours')]);
  expect(Object.fromEntries(endings)).toEqual({ read: 2, WRONG: 1 });
  expect([...readFileSync('reports/fuzz/made-to-fail-3.bin')]).toEqual([3]);
  rmSync('reports/fuzz/made-to-fail-3.bin');
  rmSync('reports/fuzz/made-to-fail-3.txt');
});
