import type { LitSet, SetLight } from '../lamps/lit-set.ts';
import type { Setup } from '../setup.ts';
import type { StoppedLight } from './stopped-lights.ts';

/** Where a light may stand; frame widths about the middle of the frame, distance along the normal. */
export interface RoomBounds {
  readonly left: number;
  readonly right: number;
  readonly up: number;
  readonly down: number;
  readonly nearest: number;
  readonly farthest: number;
  /** How far beside its foot a light may aim, either way. */
  readonly aside: number;
}

/** How far a light may be sent where nobody said how large the room is, in frame widths beyond where it stands. Own choice. */
const ASIDE = 1;
const TIMES_FARTHER = 1.6;
/** No light is sent closer than its own width, nor than this share of where it stands. Own choice. */
const NEAREST_WIDTHS = 1;
/** Farther off than this, in frame widths, what a light throws on the frame goes by the rim of its beam alone. Own choice. */
const FAR_OFF = 1.4;
/** Distances are taped to within so much: a light that is to stay in the room is sent a little less far. */
const TAPED = 0.95;
const TIMES_NEARER = 0.6;

/**
 * Where each light of a set may go. What was entered of the room holds wherever it is known how long a frame width
 * is; a light that already stands farther than the room is said to go may stay there.
 */
export function roomBounds(set: LitSet, setup: Setup): RoomBounds[] {
  const { room } = setup;
  const width = frameWidthMm(set, setup);
  const limit = (mm: number | null, otherwise: number, present: number, most = Number.POSITIVE_INFINITY) =>
    Math.max(Math.min(most, mm === null || width === null ? otherwise : (TAPED * mm) / width), present);
  return set.lights.map(({ x, y, distance, face, aimX, aimY }, lamp) => {
    // a tape says how much farther a light can go; where the fit has it is another matter
    const entered = setup.lampDistanceMm[lamp] ?? null;
    const reach =
      room.reachMm !== null && entered !== null ? (TAPED * room.reachMm * distance) / entered : null;
    const across = face.kind === 'disc' ? 2 * face.radius : Math.max(face.width, face.height);
    return {
      left: -limit(room.leftMm, Math.abs(x) + ASIDE, -x, FAR_OFF),
      right: limit(room.rightMm, Math.abs(x) + ASIDE, x, FAR_OFF),
      up: -limit(room.upMm, Math.abs(y) + ASIDE, -y, FAR_OFF),
      down: limit(room.downMm, Math.abs(y) + ASIDE, y, FAR_OFF),
      nearest: Math.min(distance, Math.max(NEAREST_WIDTHS * across, TIMES_NEARER * distance)),
      farthest: Math.max(distance, reach ?? limit(room.reachMm, TIMES_FARTHER * distance, distance)),
      aside: Math.max(FAR_OFF, Math.abs(aimX - x), Math.abs(aimY - y)),
    };
  });
}

/**
 * Of likely sets so many may have a wall nearer than the plan goes by: a lone light that a wall stops is on its way all
 * the same, while one of two leaves the other alone. Own choice.
 */
const BEYOND_SHARE = { lone: 0.5, ofTwo: 0.15 } as const;

/**
 * Where each light of the best set may go, so that it goes no farther in most of the likely ones, where it may stand
 * otherwise, the best first; and no farther than where it was stopped before.
 */
export function roomBoundsOfAll(
  sets: readonly LitSet[],
  setup: Setup,
  stopped: readonly StoppedLight[] = [],
): RoomBounds[] {
  const each = sets.map((set) => roomBounds(set, setup));
  const beyond = sets[0]!.lights.length < 2 ? BEYOND_SHARE.lone : BEYOND_SHARE.ofTwo;
  return sets[0]!.lights.map(({ x, y, distance }, lamp) => {
    const least = (of: (bounds: RoomBounds, light: SetLight) => number) =>
      sets.map((set, i) => of(each[i]![lamp]!, set.lights[lamp]!)).toSorted((a, b) => a - b)[
        Math.floor(beyond * sets.length)
      ]!;
    const met = stopped[lamp];
    const atMost = (room: number, wall: number | undefined) => Math.min(room, wall ?? room);
    return {
      ...each[0]![lamp]!,
      left:
        x -
        atMost(
          least((bounds, light) => light.x - bounds.left),
          met?.left,
        ),
      right:
        x +
        atMost(
          least((bounds, light) => bounds.right - light.x),
          met?.right,
        ),
      up:
        y -
        atMost(
          least((bounds, light) => light.y - bounds.up),
          met?.up,
        ),
      down:
        y +
        atMost(
          least((bounds, light) => bounds.down - light.y),
          met?.down,
        ),
      farthest:
        distance *
        atMost(
          least((bounds, light) => bounds.farthest / light.distance),
          met?.farther,
        ),
    };
  });
}

/** As entered, or as an entered distance makes it beside the fitted one; `null` where neither is known. */
export function frameWidthMm(set: LitSet, { frameWidthMm, lampDistanceMm }: Setup): number | null {
  if (frameWidthMm !== null) return frameWidthMm;
  const lamp = lampDistanceMm.findIndex((mm) => mm !== null);
  const [entered, light] = [lampDistanceMm[lamp] ?? null, set.lights[lamp]];
  return entered === null || light === undefined ? null : entered / light.distance;
}
