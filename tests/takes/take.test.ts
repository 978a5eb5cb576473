import { expect, test } from 'vitest';
import type { Move } from '../../src/engine/moves/move.ts';
import { doneSince, type Take, takesOfSetup } from '../../src/takes/take.ts';
import { readingFixture } from '../plots/reading-fixture.ts';

const move = (stops: number): Move => ({
  ...{ kind: 'expose', stops, bringsEv: null, toward: null, caution: null },
});
const reading = readingFixture({ columns: 2, rows: 2 });
const take = (id: string, done: Take['done']): Take => ({ id, done, reading, note: '' });
const TAKES = [
  take('a', null),
  take('b', [move(1)]),
  take('c', null),
  take('d', []),
  take('e', [move(2), move(3)]),
];

test('takesOfSetup(takes, id) reaches from the take that began it to the last before another begins', () => {
  expect([...takesOfSetup(TAKES, 'b')]).toEqual(['a', 'b']);
  expect([...takesOfSetup(TAKES, 'd')]).toEqual(['c', 'd', 'e']);
});

test('doneSince(takes, id) is what was done after a take, in order', () => {
  const stops = (id: string) => doneSince(TAKES, id).map((each) => (each as { stops: number }).stops);
  expect([stops('e'), stops('d'), stops('c')]).toEqual([[], [2, 3], [2, 3]]);
});
