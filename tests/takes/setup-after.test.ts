import { expect, test } from 'vitest';
import type { Move } from '../../src/engine/moves/move.ts';
import { UNKNOWN_SETUP } from '../../src/engine/setup.ts';
import { setupAfter, setupAtTake } from '../../src/takes/setup-after.ts';
import type { Take } from '../../src/takes/take.ts';
import { readingFixture } from '../plots/reading-fixture.ts';

const SETUP = { ...UNKNOWN_SETUP, lampDistanceMm: [600] };
const farther = (ratio: number | null, lamp = 0): Move => ({
  kind: 'lamp-distance',
  lamp,
  ratio,
  bringsEv: null,
  toward: null,
  caution: null,
});
const reading = readingFixture({ columns: 2, rows: 2 });
const take = (id: string, done: readonly Move[] | null): Take => ({ id, reading, done, note: '' });

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

test('setupAtTake(setup, takes, id) follows the moves of its own set-up only', () => {
  const takes = [
    take('take-1', null),
    take('take-2', [farther(3)]),
    take('take-3', null),
    take('take-4', [farther(1.5)]),
    take('take-5', []),
  ];
  const distances = takes.map(({ id }) => setupAtTake(SETUP, takes, id).lampDistanceMm[0]);
  expect(distances).toEqual([600, 1800, 600, 900, 900]);
});
