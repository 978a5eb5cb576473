import type { LightChange, SetChange } from './light-change.ts';

/*
 * How far hands at a set miss what they were told (common practice, no published source): bounds of 5 % of the way
 * and 6 mm for where a stand comes to be, 2° for where a head comes to aim; as standard deviations of an even spread.
 */
const OF_EVEN = 1 / Math.sqrt(3);
export const OF_WAY = 0.05 * OF_EVEN;
export const STAND_MM = 6 * OF_EVEN;
const AIM_RAD = ((2 * Math.PI) / 180) * OF_EVEN;
/** A dial is off by so much. Own allowance. */
const DIAL_EV = 0.03;
/** Gels sold under one name differ by so much of their shift (trade values, one table; ranges from memory). */
const OF_GEL = 0.12;
/** How much is left of spill that was blocked is anybody's guess: a door left ajar, or a lamp switched off. Own choice. */
const BLOCKED_EV = 2;

/** Where no width was entered: of a table top set (common practice, no published source). */
const USUAL_FRAME_MM = 500;

/** Figures of one light that hands can miss, in standard deviations of it. */
export const SLIPS_PER_LIGHT = 7;

/** Whether the stand or the head was touched at all. */
function isTouched({ right, down, ratio, aimRight, aimDown }: LightChange): boolean {
  return right !== 0 || down !== 0 || ratio !== 1 || aimRight !== 0 || aimDown !== 0;
}

/** Which figures of a change hands may have missed, of {@link SLIPS_PER_LIGHT} for each light; after those, blocked spill. */
export function slipsOf({ lights, spillEv }: SetChange): number[] {
  const ofLights = lights.flatMap((light, lamp) => {
    const { right, down, ratio, stops, mired } = light;
    const isSlid = right !== 0 || down !== 0;
    const missed = [
      isSlid,
      isSlid,
      ratio !== 1,
      isTouched(light),
      isTouched(light),
      stops !== 0,
      mired !== 0,
    ];
    return missed.flatMap((may, i) => (may ? [lamp * SLIPS_PER_LIGHT + i] : []));
  });
  return spillEv === 0 ? ofLights : [...ofLights, lights.length * SLIPS_PER_LIGHT];
}

/**
 * The change as hands really made it. `slip(i)`: how far the i-th figure was missed, in standard deviations. A light
 * that was not touched stays where it was. `distances`: of the lights, before the change, in frame widths.
 */
export function asMade(
  change: SetChange,
  distances: readonly number[],
  frameWidthMm: number | null,
  slip: (index: number) => number,
): SetChange {
  const standOff = STAND_MM / (frameWidthMm ?? USUAL_FRAME_MM);
  const lights = change.lights.map((light, lamp): LightChange => {
    const at = lamp * SLIPS_PER_LIGHT;
    const stops = light.stops === 0 ? 0 : light.stops + DIAL_EV * slip(at + 5);
    const mired = light.mired === 0 ? 0 : light.mired * (1 + OF_GEL * slip(at + 6));
    if (!isTouched(light)) return { ...light, stops, mired };
    const { right, down, ratio, aimRight, aimDown } = light;
    const before = distances[lamp]!;
    const distance = before * ratio;
    const missed = (way: number, slips: number) => slips * Math.hypot(OF_WAY * way, standOff);
    const isSlid = right !== 0 || down !== 0;
    const off = {
      right: isSlid ? missed(right, slip(at)) : 0,
      down: isSlid ? missed(down, slip(at + 1)) : 0,
      away: ratio === 1 ? 0 : missed(distance - before, slip(at + 2)),
    };
    const aim = distance * AIM_RAD;
    return {
      ...light,
      stops,
      mired,
      right: right + off.right,
      down: down + off.down,
      ratio: (distance + off.away) / before,
      // a head is aimed at its spot after it was moved: where it stands does not change that
      aimRight: aimRight - off.right + aim * slip(at + 3),
      aimDown: aimDown - off.down + aim * slip(at + 4),
    };
  });
  const { spillEv } = change;
  const left = spillEv === 0 ? 0 : spillEv + BLOCKED_EV * slip(lights.length * SLIPS_PER_LIGHT);
  return { ...change, lights, spillEv: left };
}
