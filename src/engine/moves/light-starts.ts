import { type LightChange, NO_CHANGE } from '../lamps/light-change.ts';
import type { LitSet, SetLight } from '../lamps/lit-set.ts';
import type { RoomBounds } from './room-bounds.ts';

/** Two lights are flattest so far to either side, over their distance: between cos³ (0.5) and cos⁴ (0.45). */
const SIDE_OVER_DISTANCE = 0.48;
/** Beams that cross are aimed so far over the middle, in frame widths. Own choice. */
const CROSSED = 0.5;
/** Two lights farther back than this, in frame widths, gain no more. Own choice. */
const WELL_BACK = 2.2;

interface Stand {
  readonly x: number;
  readonly y: number;
  readonly distance: number;
  readonly aimX: number;
  readonly aimY: number;
}

/** Where a search for even light may begin: as it is, straight and well back, feathered or crossed. */
export function lightStarts(set: LitSet, bounds: readonly RoomBounds[]): LightChange[][] {
  const asItIs = set.lights.map(() => NO_CHANGE);
  return [
    asItIs,
    ...stands(set, bounds).map((places) => places.map((to, i) => changeTo(set.lights[i]!, to))),
  ];
}

function stands({ lights }: LitSet, bounds: readonly RoomBounds[]): Stand[][] {
  if (lights.length === 1) {
    const { farthest } = bounds[0]!;
    const { x, y } = lights[0]!;
    const back = { x: 0, y: 0, distance: farthest, aimX: 0, aimY: 0 };
    const aside = { x, y, distance: farthest, aimX: -CROSSED * Math.sign(x), aimY: 0 };
    return [[back], [aside]];
  }
  return [0, CROSSED].map((crossed) =>
    lights.map(({ y }, i): Stand => {
      const distance = Math.min(bounds[i]!.farthest, WELL_BACK);
      const side = i === 0 ? -1 : 1;
      const x =
        side *
        Math.min(SIDE_OVER_DISTANCE * distance, Math.abs(i === 0 ? bounds[i]!.left : bounds[i]!.right));
      return { x, y: y / 2, distance, aimX: -side * crossed, aimY: 0 };
    }),
  );
}

function changeTo(light: SetLight, to: Stand): LightChange {
  const [right, down] = [to.x - light.x, to.y - light.y];
  return {
    ...NO_CHANGE,
    ...{ right, down, ratio: to.distance / light.distance },
    ...{ aimRight: to.aimX - light.aimX - right, aimDown: to.aimY - light.aimY - down },
  };
}
