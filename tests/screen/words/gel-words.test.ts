import { expect, test } from 'vitest';
import { GELS } from '../../../src/engine/moves/gel-strengths.ts';
import { type Setup, UNKNOWN_SETUP } from '../../../src/engine/setup.ts';
import { gelWords } from '../../../src/screen/words/gel-words.ts';

const TWO: Setup = { ...UNKNOWN_SETUP, arrangement: 'two-lamps' };
const GEL = {
  ...({ kind: 'gel', lamp: 1, duvShift: 0, leavesMired: null } as const),
  ...{ bringsEv: null, toward: null, caution: null },
};
const said = (move: Parameters<typeof gelWords>[0]) => gelWords(move, TWO).replaceAll('\u00a0', ' ');

test('gelWords(move) names the strength that is sold, and what is left between the lights', () => {
  expect(said({ ...GEL, miredShift: -18, leavesMired: 2.7 })).toBe(
    'Put an eighth blue gel on the right light (18 mired cooler, about 600 K at 5500 K; a trade value, makers’ differ), bring its power back to the same level; about 3 mired are left between the two.',
  );
  expect(said({ ...GEL, lamp: 0, miredShift: 64, leavesMired: 0.2 })).toMatch(
    /^Put a quarter orange gel on the left light \(64 mired warmer, .*; next to nothing is left between the two\.$/,
  );
  expect(said({ ...GEL, miredShift: -78 })).toMatch(/back to the same level\.$/);
});

test('gelWords(move) knows every strength of the table', () => {
  const named = GELS.map(({ mired }) => said({ ...GEL, miredShift: mired }).match(/(\w+ \w+) gel on/)?.[1]);
  expect(named).toEqual(GELS.map(({ name }) => name));
});

test('gelWords(move) of no strength sold says its shift', () => {
  expect(said({ ...GEL, miredShift: -40 })).toMatch(
    /^Put a gel of 40 mired cooler \(about .* at 5500 K\) on the right light, bring its power back/,
  );
  expect(said({ ...GEL, miredShift: -18, duvShift: 0.002 })).toMatch(/and 0\.0020 Duv greener on the right/);
});
