import { expect, test } from 'vitest';
import type { Move } from '../../src/engine/moves/move.ts';
import { UNKNOWN_SETUP } from '../../src/engine/setup.ts';
import { setupAfter, setupAtNextTake, setupAtTake } from '../../src/takes/setup-after.ts';

const SETUP = { ...UNKNOWN_SETUP, lampDistanceMm: [600] };
const farther = (ratio: number | null, lamp = 0): Move => ({
  kind: 'lamp-distance',
  lamp,
  ratio,
  bringsEv: null,
  toward: null,
  caution: null,
});
const take = (
  id: string,
  done: readonly Move[] | null,
  measuredMm: readonly (number | null)[] = [],
  setup = SETUP,
) => ({ id, done, measuredMm, setup });

test('setupAfter(setup, done) multiplies each lamp’s distance by what was done', () => {
  expect(setupAfter(SETUP, [farther(1.5), farther(2)]).lampDistanceMm).toEqual([1800]);
  expect(setupAfter({ ...SETUP, lampDistanceMm: [600, 500] }, [farther(2, 1)]).lampDistanceMm).toEqual([
    600, 1000,
  ]);
});

test('a distance changed by an unknown ratio is unknown from then on', () => {
  expect(setupAfter(SETUP, [farther(null), farther(2)]).lampDistanceMm).toEqual([null]);
  expect(setupAfter(UNKNOWN_SETUP, [farther(2)]).lampDistanceMm).toEqual([]);
});

test('setupAtTake(takes, id) follows the moves of its own set-up only, from what was entered for that', () => {
  const other = { ...UNKNOWN_SETUP, lampDistanceMm: [800] };
  const takes = [
    take('take-1', null),
    take('take-2', [farther(3)]),
    take('take-3', null, [], other),
    take('take-4', [farther(1.5)], [], other),
    take('take-5', [], [], other),
  ];
  const distances = takes.map(({ id }) => setupAtTake(takes, id).lampDistanceMm[0]);
  expect(distances).toEqual([600, 1800, 800, 1200, 1200]);
});

test('a distance that was measured holds against what was entered, and brings a lost one back', () => {
  const takes = [
    take('take-1', null),
    take('take-2', [farther(2)], [1000]), // from 500, as it turned out
    take('take-3', [farther(null)]),
    take('take-4', [farther(null)], [900]),
    take('take-5', [farther(2)]),
    take('take-6', [farther(2, 1)], [null, 700]),
  ];
  const distances = takes.map(({ id }) => setupAtTake(takes, id).lampDistanceMm);
  expect(distances).toEqual([[600], [1000], [null], [900], [1800], [1800, 700]]);
});

test('setupAtNextTake(takes, next) follows the moves before a take that is still to be read', () => {
  const takes = [take('take-1', null), take('take-2', [farther(3)])];
  const next = (done: readonly Move[] | null, measuredMm: readonly (number | null)[] = []) =>
    setupAtNextTake(takes, { done, measuredMm, setup: SETUP }).lampDistanceMm;
  expect(next([farther(0.5)])).toEqual([900]);
  expect(next([farther(null)], [850])).toEqual([850]);
  expect(next([])).toEqual([1800]);
  expect(next(null)).toEqual([600]);
  expect(setupAtNextTake([], { done: [farther(2)], measuredMm: [], setup: SETUP })).toEqual(SETUP);
});
