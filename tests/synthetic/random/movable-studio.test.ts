import { expect, test } from 'vitest';
import { movableStudio } from './movable-studio.ts';
import { spreadEv } from './spread-ev.ts';
import { isInShot, staysInRoom } from './within-room.ts';

const SEEDS = [1, 2];

test.each(['behind-sheet', 'bounced', 'two-lamps'] as const)(
  'lights of a movable studio, %s, stand out of shot in a room that is known',
  (arrangement) => {
    for (const seed of SEEDS) {
      const { set, setup, seed: own } = movableStudio(seed, arrangement);
      expect(own).toBe(seed);
      expect(setup.arrangement).toBe(arrangement);
      expect(set.lamps).toHaveLength(arrangement === 'two-lamps' ? 2 : 1);
      for (const lamp of set.lamps) expect(isInShot(set, lamp), `seed ${seed}`).toBe(false);
      for (const mm of Object.values(setup.room)) expect(mm).toBeGreaterThan(0);
      expect(staysInRoom(set, setup.room), `seed ${seed}`).toBe(true);
      // what no move of a light changes
      expect([set.rim, set.bands, set.texture]).toEqual([undefined, undefined, undefined]);
    }
  },
);

test('the same seed gives the same studio, another one another', () => {
  const [once, again, other] = [1, 1, 2].map((seed) => movableStudio(seed, 'bounced'));
  expect(spreadEv(again!.set)).toBe(spreadEv(once!.set));
  expect(again!.setup).toEqual(once!.setup);
  expect(spreadEv(other!.set)).not.toBe(spreadEv(once!.set));
});
