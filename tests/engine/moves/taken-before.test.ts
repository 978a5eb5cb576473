import { expect, test } from 'vitest';
import type { SetSamples } from '../../../src/engine/lamps/set-samples.ts';
import { changeMade } from '../../../src/engine/moves/change-made.ts';
import type { Move } from '../../../src/engine/moves/move.ts';
import { fittedTogether, type TakenBefore } from '../../../src/engine/moves/taken-before.ts';
import { type Setup, UNKNOWN_SETUP } from '../../../src/engine/setup.ts';
import { powered, setBack, slid, tighter } from './some-moves.ts';

const SETUP = { ...UNKNOWN_SETUP, frameWidthMm: 500 };
const NONE = Float64Array.of();
/** Takes told apart by the level of their samples. */
const take = (levelEv: number, done: readonly Move[], setup: Setup = SETUP): TakenBefore => {
  const samples: SetSamples = {
    ...{ x: NONE, y: NONE, ev: NONE, uPrime: NONE, vPrime: NONE },
    ...{ aspect: 2 / 3, levelEv, exposureEv: null },
  };
  return { samples, setup, found: [], done };
};
const levels = (takes: readonly TakenBefore[]) =>
  fittedTogether(takes, 2 / 3).map(({ samples }) => samples.levelEv);

test('takes go together, oldest first, each with what was changed after it', () => {
  const takes = [take(1, [slid(0)]), take(2, []), take(3, [setBack(0, 1.5)])];
  const together = fittedTogether(takes, 2 / 3);
  expect(levels(takes)).toEqual([1, 2, 3]);
  expect(together.map(({ change }) => change)).toEqual(takes.map(({ done }) => changeMade(done, SETUP)));
  expect(together.map(({ found }) => found)).toEqual(takes.map(({ found }) => found));
  expect(fittedTogether([], 2 / 3)).toEqual([]);
});

test('the chain breaks where it is not known what was changed, whatever went before', () => {
  const known = [slid(0)];
  expect(levels([take(1, known), take(2, [setBack(0, null)]), take(3, known), take(4, known)])).toEqual([
    3, 4,
  ]);
  expect(levels([take(1, known), take(2, known), take(3, [tighter])])).toEqual([]);
  expect(levels([take(1, [tighter]), take(2, known)])).toEqual([2]);
});

test('the chain breaks where a frame shows another part of the background', () => {
  const takes = [take(1, [slid(0)]), take(2, [slid(0)])];
  expect(fittedTogether(takes, 2 / 3)).toHaveLength(2);
  expect(fittedTogether(takes, 3 / 2)).toEqual([]);
});

test('a change is read with the set-up as it stood for its own take', () => {
  const two = { ...SETUP, arrangement: 'two-lamps' as const };
  const onlyMm = { ...slid(0), rightFrameWidths: null, downFrameWidths: null };
  expect(levels([take(1, [powered(1, 1)], two), take(2, [onlyMm])])).toEqual([1, 2]);
  expect(levels([take(1, [powered(1, 1)]), take(2, [onlyMm])])).toEqual([2]);
  expect(levels([take(1, [onlyMm], { ...SETUP, frameWidthMm: null }), take(2, [onlyMm])])).toEqual([2]);
});

test('no more than the five newest go together, however long a series is', () => {
  expect(levels([1, 2, 3, 4, 5, 6, 7].map((level) => take(level, [])))).toEqual([3, 4, 5, 6, 7]);
});
