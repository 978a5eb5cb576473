import type { SeededRandom } from '../../../src/engine/numeric/seeded-random.ts';
import type { Setup } from '../../../src/engine/setup.ts';
import type { StudioLamp, StudioSet } from '../studio/studio-set.ts';
import { spreadEv } from './spread-ev.ts';
import { isInShot, staysInRoom } from './within-room.ts';

/** Points of a search: as many restarts, each with so many halvings of its steps. */
const RESTARTS = 3;
const LEAST_STEP = 0.02;
const ACROSS = [9, 6] as const;

/**
 * The evenest light that any placement, aim and power of a studio's lights allows: within the room, no light in shot.
 * Pattern search (Hooke and Jeeves 1961) from the studio as it is and from places drawn at random.
 */
export function bestPlacementEv(
  set: StudioSet,
  room: Setup['room'],
  random: SeededRandom,
  restarts = RESTARTS,
): number {
  const size = 5 * set.lamps.length + (set.lamps.length - 1);
  const cost = (point: readonly number[]): number => {
    const placed = placedAt(set, point);
    if (!staysInRoom(placed, room) || placed.lamps.some((lamp) => isInShot(placed, lamp)))
      return Number.POSITIVE_INFINITY;
    return spreadEv(placed, ...ACROSS);
  };
  const nothing = Array.from({ length: size }, () => 0);
  let best = nothing;
  let bestEv = cost(nothing);
  for (let restart = 0; restart <= restarts; restart++) {
    let point = nothing;
    let ev = cost(point);
    for (let tries = 0; restart > 0 && tries < 200; tries++) {
      const drawn = nothing.map(() => random.normal());
      const drawnEv = cost(drawn);
      if (!Number.isFinite(drawnEv)) continue;
      [point, ev] = [drawn, drawnEv];
      break;
    }
    for (let step = 0.5; step > LEAST_STEP; ) {
      const before = point;
      const beforeEv = ev;
      [point, ev] = explored(point, ev, step, cost);
      if (ev < beforeEv) {
        // on along the way that has helped
        const farther = point.map((value, i) => 2 * value - before[i]!);
        const fartherEv = cost(farther);
        if (fartherEv < ev) [point, ev] = [farther, fartherEv];
      }
      if (!(ev < beforeEv - 0.001)) step /= 2;
    }
    if (ev < bestEv) [best, bestEv] = [point, ev];
  }
  return Number.isFinite(bestEv) ? spreadEv(placedAt(set, best)) : bestEv;
}

function explored(
  from: readonly number[],
  fromEv: number,
  step: number,
  cost: (point: readonly number[]) => number,
): [number[], number] {
  let [point, ev] = [[...from], fromEv];
  for (let i = 0; i < point.length; i++)
    for (const way of [step, -step]) {
      const next = point.map((value, k) => (k === i ? value + way : value));
      const nextEv = cost(next);
      if (!(nextEv < ev)) continue;
      [point, ev] = [next, nextEv];
      break;
    }
  return [point, ev];
}

/** Numbers of 1 are a third of the frame's width, a third of the distance, or half a stop. */
function placedAt(set: StudioSet, point: readonly number[]): StudioSet {
  const third = set.frameWidthMm / 3;
  const lamps = set.lamps.map((lamp, i): StudioLamp => {
    const [x, y, away, aimX, aimY] = point.slice(5 * i, 5 * i + 5) as [
      number,
      number,
      number,
      number,
      number,
    ];
    const power = i === 0 ? 1 : 2 ** (0.5 * point[5 * set.lamps.length]!);
    return {
      ...lamp,
      xMm: lamp.xMm + third * x,
      yMm: lamp.yMm + third * y,
      distanceMm: lamp.distanceMm * Math.exp(away / 3),
      aimXMm: lamp.aimXMm + third * (x + aimX),
      aimYMm: lamp.aimYMm + third * (y + aimY),
      power: lamp.power * power,
    };
  });
  return { ...set, lamps };
}
