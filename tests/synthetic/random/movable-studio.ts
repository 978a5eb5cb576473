import { seededRandom } from '../../../src/engine/numeric/seeded-random.ts';
import type { Setup } from '../../../src/engine/setup.ts';
import { drawsFrom } from './draws.ts';
import type { Arrangement } from './good-practice.ts';
import { type RandomStudio, randomStudio } from './random-studio.ts';
import { isInShot } from './within-room.ts';

/** Seeds of one studio's tries lie so far apart that no two studios share one. */
const TRIES_APART = 10_000;

/**
 * A random studio whose lights can be moved: none of them stands in shot, as the blank frame would show it, and it is
 * known how large the room is. What no move of a light changes, rim, bands and texture, is left out.
 */
export function movableStudio(seed: number, arrangement: Exclude<Arrangement, 'panel'>): RandomStudio {
  for (let tries = 0; ; tries++) {
    const studio = randomStudio(seed + TRIES_APART * tries, arrangement);
    const { rim, bands, texture, ...set } = studio.set;
    if (set.lamps.some((lamp) => isInShot(set, lamp))) continue;
    return { ...studio, seed, set, setup: { ...studio.setup, room: roomOf(studio) } };
  }
}

function roomOf({ seed, setup, set }: RandomStudio): Setup['room'] {
  if (setup.room.reachMm !== null) return setup.room;
  const { between } = drawsFrom(seededRandom(seed ^ 0x700e));
  const { frameWidthMm: width, frameHeightMm: height, lamps } = set;
  const atLeast = (mm: number, ways: readonly number[]) =>
    10 * Math.round(Math.max(mm, ...ways.map((way) => 1.1 * way)) / 10);
  return {
    leftMm: atLeast(
      width * between(0.8, 2.5),
      lamps.map(({ xMm }) => -xMm),
    ),
    rightMm: atLeast(
      width * between(0.8, 2.5),
      lamps.map(({ xMm }) => xMm),
    ),
    upMm: atLeast(
      height * between(0.8, 2),
      lamps.map(({ yMm }) => -yMm),
    ),
    downMm: atLeast(
      height * between(0.8, 2),
      lamps.map(({ yMm }) => yMm),
    ),
    reachMm: atLeast(
      width * between(1.5, 4),
      lamps.map(({ distanceMm }) => distanceMm),
    ),
  };
}
