import { expect, test } from 'vitest';
import type { FrameKind } from '../../../src/engine/sorting/frame-kind.ts';
import { proposedSet } from '../../../src/engine/sorting/proposed-set.ts';

const KIND: Record<string, FrameKind> = {
  b: 'blank',
  s: 'subject',
  l: 'lamp-off',
  m: 'marker',
  x: 'badly-exposed',
};
const of = (shoot: string) => proposedSet([...shoot].map((letter) => KIND[letter]!));

test.each([
  ['after the last marker', 'bssmss', [4, 5], 0],
  ['all, where there is no marker', 'bsss', [1, 2, 3], 0],
  ['before a marker that nothing follows', 'bssmssm', [4, 5], 0],
  ['by the blank nearest before them', 'bsmbss', [4, 5], 3],
  ['by a blank after them, where none is before', 'ssb', [0, 1], 2],
  ['by the one before rather than one after', 'bssb', [1, 2], 0],
  ['without badly exposed ones and lamps off', 'bmsxls', [2, 5], 0],
  ['without a blank, where there is none', 'mss', [1, 2], null],
  ['a blank between subjects', 'ssbs', [0, 1, 3], 2],
  ['nothing, where there is no subject', 'bblm', [], null],
  ['nothing of nothing', '', [], null],
] as const)('%s', (_, shoot, subjects, blank) => {
  expect(of(shoot)).toEqual({ subjects, blank });
});
