import type { LitSet } from './lit-set.ts';

/**
 * The set as a camera sees it that was slid to the right and down, in frame widths: light, surface and rim move the
 * other way through its frame, the lens stays with it.
 */
export function slidSet(set: LitSet, right: number, down: number): LitSet {
  const { lights, panel, spill, tint, rim } = set;
  return {
    ...set,
    lights: lights.map((light) => ({
      ...light,
      x: light.x - right,
      y: light.y - down,
      aimX: light.aimX - right,
      aimY: light.aimY - down,
    })),
    panel: panel && { ...panel, x: panel.x - right, y: panel.y - down },
    spill: spill && { ...spill, levelEv: spill.levelEv + spill.rightEv * right + spill.downEv * down },
    tint: tint && { ...tint, x: tint.x - right, y: tint.y - down },
    rim: rim && {
      ...rim,
      left: rim.left - right,
      right: rim.right + right,
      top: rim.top - down,
      bottom: rim.bottom + down,
    },
  };
}
