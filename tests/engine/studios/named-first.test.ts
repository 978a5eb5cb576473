import { expect, test } from 'vitest';
import type { Finding } from '../../../src/engine/reading.ts';
import type { PlantedKind } from '../../synthetic/random/planted-cause.ts';
import type { TrueShare } from '../../synthetic/random/true-shares.ts';
import { leadsOf, namedFirst } from './named-first.ts';
import type { StudioReading } from './studio-frames.ts';

const planted = (kind: PlantedKind, ev: number, tintDeltaUv = 0): TrueShare => ({
  kind,
  isPlanted: true,
  ev,
  tintDeltaUv,
  castDeltaUv: 0,
});
const told = (kind: Finding['kind'], ev: number, says = '') => ({ kind, ev, says }) as Finding;
const reading = (...findings: Finding[]) => ({ findings, set: null }) as unknown as StudioReading;

const OFF_CENTRE_OR_AIM =
  'One frame can’t tell a light that stands to one side from one that is aimed to that side';

test('leads are the strongest planted cause and those within 0.05 EV, stops and colour on one scale', () => {
  const kinds = (...truth: TrueShare[]) => leadsOf(truth).map(({ kind }) => kind);
  expect(kinds(planted('too-close', 0.3), planted('off-centre', 0.26), planted('bands', 0.24))).toEqual([
    'too-close',
    'off-centre',
  ]);
  // 0.0094 u′v′ is twice the limit, as 0.6 EV is
  expect(kinds(planted('too-close', 0.5), planted('stray-light', 0, 0.0094))).toEqual(['stray-light']);
  const castAlone = { ...planted('tinted-all-over', 0), castDeltaUv: 0.0094 };
  expect(kinds(planted('too-close', 0.5), castAlone)).toEqual(['tinted-all-over']);
  const byChance = { ...planted('lens-falloff', 2), isPlanted: false };
  expect(kinds(byChance, planted('too-close', 0.5))).toEqual(['too-close']);
});

test('the lead counts where it is told first, or within 0.05 EV of the first', () => {
  const truth = [planted('off-centre', 0.5), planted('bands', 0.1)];
  expect(namedFirst(truth, reading(told('off-centre', 0.5), told('bands', 0.1)))).toBe('outright');
  expect(namedFirst(truth, reading(told('too-close', 0.54), told('off-centre', 0.5)))).toBe('outright');
  expect(namedFirst(truth, reading(told('too-close', 0.56), told('off-centre', 0.5)))).toBe('not');
  expect(namedFirst(truth, reading(told('bands', 0.1)))).toBe('not');
  expect(namedFirst(truth, reading())).toBe('not');
});

test('findings that name no cause do not stand in its way', () => {
  const truth = [planted('off-centre', 0.5)];
  expect(namedFirst(truth, reading(told('clipped', 0), told('slope', 0.9), told('off-centre', 0.4)))).toBe(
    'outright',
  );
});

test('“can’t tell” counts for the two causes it names, and is told apart', () => {
  const untold = told('cannot-tell', 0.5, OFF_CENTRE_OR_AIM);
  expect(namedFirst([planted('aimed-off', 0.5)], reading(untold))).toBe('cannot-tell');
  expect(namedFirst([planted('too-close', 0.5)], reading(untold))).toBe('not');
  expect(namedFirst([planted('aimed-off', 0.5)], reading(untold, told('aimed-off', 0.48)))).toBe('outright');
});
