import type { LitSet, SetLight, SheetScatter } from './lit-set.ts';

/** What is changed at one light. Lengths in frame widths; all of it 0, and 1 for the ratio, changes nothing. */
export interface LightChange {
  /** How far the light is slid; the spot that it aims at goes along. */
  readonly right: number;
  readonly down: number;
  /** New distance to the background ÷ present; place and aimed-at spot stay. */
  readonly ratio: number;
  /** How far the aimed-at spot travels beside that. */
  readonly aimRight: number;
  readonly aimDown: number;
  /** Change of its power, in stops. */
  readonly stops: number;
  /** Change of its colour; warmer and greener are positive. */
  readonly mired: number;
  readonly duv: number;
}

export const NO_CHANGE: LightChange = {
  ...{ right: 0, down: 0, ratio: 1, aimRight: 0, aimDown: 0 },
  ...{ stops: 0, mired: 0, duv: 0 },
};

/** What is changed at a set. */
export interface SetChange {
  /** One entry for each light; lights beyond the list stay as they are. */
  readonly lights: readonly LightChange[];
  /** How much of the room's light is left, in stops (0: all). */
  readonly spillEv: number;
  /** Whether a second sheet is hung before the first. */
  readonly isDoubled: boolean;
}

export const NOTHING_CHANGED: SetChange = { lights: [], spillEv: 0, isDoubled: false };

/** The set after a change. */
export function changedSet(set: LitSet, { lights, spillEv, isDoubled }: SetChange): LitSet {
  const { spill, sheet } = set;
  return {
    ...set,
    lights: set.lights.map((light, i) => (lights[i] === undefined ? light : changedLight(light, lights[i]))),
    spill: spill && { ...spill, levelEv: spill.levelEv + spillEv },
    sheet: sheet && isDoubled ? doubled(sheet) : sheet,
  };
}

/** The set before a change that led to it: the inverse of {@link changedSet}. */
export function setBefore(set: LitSet, { lights, spillEv, isDoubled }: SetChange): LitSet {
  const before = changedSet(set, { lights: lights.map(undone), spillEv: -spillEv, isDoubled: false });
  return before.sheet && isDoubled ? { ...before, sheet: halved(before.sheet) } : before;
}

/** Two like sheets: what went straight through one is let through so again by the other, spread twice. */
const doubled = ({ forwardShare, lobeRad }: SheetScatter): SheetScatter => ({
  forwardShare: forwardShare ** 2,
  lobeRad: lobeRad * Math.SQRT2,
});

const halved = ({ forwardShare, lobeRad }: SheetScatter): SheetScatter => ({
  forwardShare: Math.sqrt(forwardShare),
  lobeRad: lobeRad / Math.SQRT2,
});

/** The change that takes back another. */
export function undone({ ratio, ...lengths }: LightChange): LightChange {
  return {
    ...{ right: -lengths.right, down: -lengths.down, ratio: 1 / ratio },
    ...{ aimRight: -lengths.aimRight, aimDown: -lengths.aimDown },
    ...{ stops: -lengths.stops, mired: -lengths.mired, duv: -lengths.duv },
  };
}

/** Two changes of one light, one after the other. */
export function together(one: LightChange, other: LightChange): LightChange {
  return {
    ...{ right: one.right + other.right, down: one.down + other.down, ratio: one.ratio * other.ratio },
    ...{ aimRight: one.aimRight + other.aimRight, aimDown: one.aimDown + other.aimDown },
    ...{ stops: one.stops + other.stops, mired: one.mired + other.mired, duv: one.duv + other.duv },
  };
}

function changedLight(light: SetLight, change: LightChange): SetLight {
  return {
    ...light,
    x: light.x + change.right,
    y: light.y + change.down,
    distance: light.distance * change.ratio,
    aimX: light.aimX + change.right + change.aimRight,
    aimY: light.aimY + change.down + change.aimDown,
    strengthEv: light.strengthEv + change.stops,
    colour: { mired: light.colour.mired + change.mired, duv: light.colour.duv + change.duv },
  };
}
