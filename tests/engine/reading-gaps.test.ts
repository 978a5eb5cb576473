import { expect, test } from 'vitest';
import type { Move } from '../../src/engine/moves/move.ts';
import type { Finding, Reading } from '../../src/engine/reading.ts';
import { readingFixture } from '../plots/reading-fixture.ts';
import { gapsOf } from './reading-gaps.ts';

const OUTCOME = { bringsEv: null, toward: 90, caution: null };

const withMove = (move: object): Reading =>
  readingFixture({ columns: 4, rows: 3 }, { moves: [{ ...OUTCOME, ...move } as Move] });

test('gapsOf(reading) finds nothing in a whole reading, nor in moves of which only the direction is known', () => {
  expect(gapsOf(readingFixture({ columns: 4, rows: 3 }))).toEqual([]);
  const nowhere = { rightMm: null, downMm: null, rightFrameWidths: null, downFrameWidths: null };
  expect(gapsOf(withMove({ kind: 'slide-lamp', lamp: 0, ...nowhere }))).toEqual([]);
  expect(gapsOf(withMove({ kind: 'lamp-distance', lamp: 1, ratio: null }))).toEqual([]);
  expect(gapsOf(withMove({ kind: 'block-stray', fromDeg: null }))).toEqual([]);
  const gel = { kind: 'gel', lamp: 1, miredShift: -18, duvShift: 0 };
  expect(gapsOf(withMove({ ...gel, leavesMired: null }))).toEqual([]);
});

test.each([
  [{ kind: 'balance-lamps', lamp: 0, stops: null }, 'moves.0.stops is null'],
  [{ kind: 'expose', stops: null }, 'moves.0.stops is null'],
  [{ kind: 'gel', lamp: null, miredShift: 3, duvShift: 0.001, leavesMired: null }, 'moves.0.lamp is null'],
  [{ kind: 'white-balance', miredShift: null, duvShift: 0.001 }, 'moves.0.miredShift is null'],
  [{ kind: 'frame-tighter', left: null, top: 0.1, right: 1, bottom: 1 }, 'moves.0.left is null'],
  [{ kind: 'add-diffusion', caution: Number.NaN }, 'moves.0.caution is NaN'],
])('gapsOf(reading) finds what the contract does not allow in %o', (move, gap) => {
  expect(gapsOf(withMove(move))).toEqual([gap]);
});

test('gapsOf(reading) finds a move’s missing and unknown fields', () => {
  const missing = gapsOf(withMove({ kind: 'lamp-distance', lamp: 0 }));
  expect(missing).toEqual([expect.stringMatching(/^moves\.0 \(lamp-distance\) holds /)]);
  const gel = gapsOf(withMove({ kind: 'gel', lamp: 1, miredShift: -18, duvShift: 0 }));
  expect(gel).toEqual([expect.stringMatching(/^moves\.0 \(gel\) holds /)]);
  const unknown = gapsOf(withMove({ kind: 'expose', stops: -1, lamp: 0 }));
  expect(unknown).toEqual([expect.stringMatching(/^moves\.0 \(expose\) holds .*lamp/)]);
});

test('gapsOf(reading) finds a finding’s missing field, and none where it gives no length', () => {
  const finding = {
    kind: 'slope',
    confidence: 0.8,
    ev: 0.3,
    mired: null,
    at: null,
    says: 'It slopes.',
  } as const;
  const withFinding = (more: object) =>
    gapsOf(readingFixture({ columns: 4, rows: 3 }, { findings: [{ ...finding, ...more } as Finding] }));
  expect(withFinding({ lengthsMm: null })).toEqual([]);
  expect(withFinding({ lengthsMm: [64.9, 0.4] })).toEqual([]);
  expect(withFinding({})).toEqual([expect.stringMatching(/^findings\.0 \(slope\) holds /)]);
});

test('gapsOf(reading) finds a number that is not finite, a field too few and a map too short', () => {
  const whole = readingFixture({ columns: 4, rows: 3 });
  expect(gapsOf({ ...whole, noise: { perPixelEv: Number.POSITIVE_INFINITY, perCellEv: 0 } })).toEqual([
    'noise.perPixelEv is Infinity',
  ]);
  expect(gapsOf({ ...whole, clipping: { highlightShare: 0 } as Reading['clipping'] })).toEqual([
    'clipping holds highlightShare',
  ]);
  expect(gapsOf({ ...whole, tint: { ...whole.tint, uPrimeMap: [0.2] } })).toEqual([
    'a map has 1 of 12 cells',
  ]);
});
