import type { LitSet, SetLight } from '../../../src/engine/lamps/lit-set.ts';

export const WHITE = { mired: 0, duv: 0 } as const;

/** A light of everyday kind facing the middle, one frame width off. */
export function lightOf(changes: Partial<SetLight> = {}): SetLight {
  return {
    x: 0,
    y: 0,
    distance: 1,
    aimX: changes.x ?? 0,
    aimY: changes.y ?? 0,
    face: { kind: 'disc', radius: 0 },
    beamPower: 1,
    beamEdge: null,
    strengthEv: 0,
    colour: WHITE,
    ...changes,
  };
}

/** A plain set of those lights on an even background. */
export function setOf(lights: readonly SetLight[], changes: Partial<LitSet> = {}): LitSet {
  return {
    lights,
    panel: null,
    sheet: null,
    spill: null,
    tint: null,
    rim: null,
    lens: null,
    cameraDistance: 3,
    aspect: 2 / 3,
    ...changes,
  };
}
