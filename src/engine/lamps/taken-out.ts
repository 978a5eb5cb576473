import { mean } from '../numeric/mean.ts';
import type { FindingKind } from '../reading.ts';
import type { LitSet, SetLight } from './lit-set.ts';

/** The causes that a model of the set can take out one by one; those first that leave each light's throw as it is. */
export const MODELLED_CAUSES = [
  'unequal-lamps',
  'unequal-colour',
  'stray-light',
  'tinted-on-one-side',
  'lens-falloff',
  'lens-colour',
  'hot-spot',
  'off-centre',
  'too-close',
  'aimed-off',
] as const satisfies readonly FindingKind[];

export type ModelledCause = (typeof MODELLED_CAUSES)[number];

/**
 * From so many diagonals of the frame on, closeness is no fault: a light behind a sheet then leaves a third of a stop
 * (worked out for cos⁴: standards of the trade name none). Two lights even each other out from one frame width on.
 */
const GOOD_DIAGONALS = 1.43;
const GOOD_WIDTHS_OF_TWO = 1;

/** The set without that cause alone; `null` where the arrangement has no such cause. */
export function takenOut(set: LitSet, cause: ModelledCause): LitSet | null {
  const { lights } = set;
  switch (cause) {
    case 'off-centre': {
      if (lights.length === 0) return null;
      const right = mean(lights.map(({ x }) => x));
      const down = mean(lights.map(({ y }) => y));
      return { ...set, lights: lights.map((light) => slid(light, -right, -down)) };
    }
    case 'too-close':
      return lights.length === 0
        ? null
        : { ...set, lights: lights.map((light) => backTo(goodDistance(set), light)) };
    case 'aimed-off':
      return lights.length === 0 ? null : { ...set, lights: lights.map(aimedWell) };
    case 'unequal-lamps': {
      if (lights.length < 2) return null;
      const level = mean(lights.map(thrownEv));
      return {
        ...set,
        lights: lights.map((light) => ({ ...light, strengthEv: light.strengthEv + level - thrownEv(light) })),
      };
    }
    case 'unequal-colour': {
      if (lights.length < 2) return null;
      const colour = {
        mired: mean(lights.map((light) => light.colour.mired)),
        duv: mean(lights.map((light) => light.colour.duv)),
      };
      return { ...set, lights: lights.map((light) => ({ ...light, colour })) };
    }
    case 'hot-spot':
      if (set.panel !== null) return { ...set, panel: { ...set.panel, acrossEv: 0, downEv: 0 } };
      return set.sheet === null ? null : { ...set, sheet: { ...set.sheet, forwardShare: 0 } };
    case 'stray-light':
      return set.spill === null ? null : { ...set, spill: null };
    case 'tinted-on-one-side':
      return set.tint === null ? null : { ...set, tint: null };
    case 'lens-falloff':
      return set.lens === null ? null : { ...set, lens: { ...set.lens, squareEv: 0, fourthEv: 0 } };
    case 'lens-colour':
      return set.lens === null ? null : { ...set, lens: { ...set.lens, corner: { mired: 0, duv: 0 } } };
  }
}

/** Light that a lamp throws squarely before itself, in stops: what balancing two of them is about. */
export function thrownEv({ strengthEv, distance }: SetLight): number {
  return strengthEv - 2 * Math.log2(distance);
}

/**
 * How far the aimed-at spot lies from where it may well be: anywhere between the spot straight before the light and
 * the middle of the frame.
 */
export function aimError({ x, y, aimX, aimY }: SetLight): readonly [right: number, down: number] {
  const square = x * x + y * y;
  const along = square === 0 ? 0 : Math.min(1, Math.max(0, (aimX * x + aimY * y) / square));
  return [aimX - along * x, aimY - along * y];
}

function slid(light: SetLight, right: number, down: number): SetLight {
  return {
    ...light,
    x: light.x + right,
    y: light.y + down,
    aimX: light.aimX + right,
    aimY: light.aimY + down,
  };
}

/** The least distance at which closeness is no fault, in frame widths. */
export function goodDistance({ lights, aspect }: Pick<LitSet, 'lights' | 'aspect'>): number {
  return lights.length > 1 ? GOOD_WIDTHS_OF_TWO : GOOD_DIAGONALS * Math.hypot(1, aspect);
}

/** Along its normal, aimed at the same spot, as strong on the background as before. */
function backTo(distance: number, light: SetLight): SetLight {
  if (light.distance >= distance) return light;
  return {
    ...light,
    distance,
    strengthEv: light.strengthEv + 2 * Math.log2(distance / light.distance),
  };
}

function aimedWell(light: SetLight): SetLight {
  const [right, down] = aimError(light);
  return { ...light, aimX: light.aimX - right, aimY: light.aimY - down };
}
