import type { StudioLamp, StudioLens, StudioSet, SurfaceTexture } from '../studio/studio-set.ts';
import { FINE_KINDS, type PlantedKind } from './planted-cause.ts';
import { spreadEv } from './spread-ev.ts';

/** The same set without one cause; a set that has none of it stays as it is. */
export function takeOut(set: StudioSet, kind: PlantedKind): StudioSet {
  return TAKE_OUT[kind](set);
}

/** By how much the spread falls when a cause alone is taken out; `null` for one that is finer than a cell. */
export function shareEv(set: StudioSet, kind: PlantedKind, spread = spreadEv(set)): number | null {
  return FINE_KINDS.has(kind) ? null : spread - spreadEv(takeOut(set, kind));
}

const TAKE_OUT: Record<PlantedKind, (set: StudioSet) => StudioSet> = {
  // light and aim slide together until the foot, of two lights the middle between the feet, stands on the middle
  'off-centre': (set) => {
    const [xMm, yMm] = [meanOf(set.lamps, (lamp) => lamp.xMm), meanOf(set.lamps, (lamp) => lamp.yMm)];
    return withLamps(set, (lamp) => ({
      xMm: lamp.xMm - xMm,
      yMm: lamp.yMm - yMm,
      aimXMm: lamp.aimXMm - xMm,
      aimYMm: lamp.aimYMm - yMm,
    }));
  },
  'too-close': (set) => {
    const enoughMm = enoughDistanceMm(set);
    return withLamps(set, ({ distanceMm, power }) => {
      const backMm = Math.max(distanceMm, enoughMm);
      return { distanceMm: backMm, power: power * (backMm / distanceMm) ** 2 };
    });
  },
  'aimed-off': (set) => withLamps(set, wellAimed),
  'unequal-lamps': (set) => {
    const power = meanOf(set.lamps, (lamp) => lamp.power);
    return withLamps(set, () => ({ power }));
  },
  'unequal-colour': (set) => withLamps(set, () => ({ colour: set.lamps[0]!.colour })),
  'hot-spot': (set) => {
    const { background } = set;
    if (background.kind === 'sheet') return { ...set, background: { ...background, forwardShare: 0 } };
    if (background.kind !== 'panel') return set;
    return { ...set, background: { ...background, middleEv: 0, carriesMm: Number.POSITIVE_INFINITY } };
  },
  'stray-light': (set) => ({ ...set, spill: null }),
  'tinted-all-over': withoutTint,
  'tinted-on-one-side': withoutTint,
  'rim-in-view': ({ rim, ...set }) => set,
  'lens-falloff': (set) => withLens(set, { naturalFall: false, mechanicalEv: 0 }),
  'lens-colour': (set) => withLens(set, { colour: { cornerMired: 0, cornerDuv: 0 } }),
  bands: ({ bands, ...set }) => set,
  creases: (set) => withTexture(set, { creases: [] }),
  weave: (set) => ({ ...set, texture: without(set.texture) }),
  specks: (set) => withTexture(set, { dust: [] }),
};

/** A light may well aim anywhere between the spot before it and the frame's middle: it is turned to the nearest such. */
function wellAimed({ xMm, yMm, aimXMm, aimYMm }: StudioLamp): Pick<StudioLamp, 'aimXMm' | 'aimYMm'> {
  const squareMm = xMm ** 2 + yMm ** 2;
  const along = squareMm > 0 ? (aimXMm * xMm + aimYMm * yMm) / squareMm : 0;
  const held = Math.min(1, Math.max(0, along));
  return { aimXMm: held * xMm, aimYMm: held * yMm };
}

/**
 * From where on closeness is no fault any more. One light: 1.43 diagonals of the frame, where a Lambertian head behind
 * a sheet leaves a third of a stop. Two: one width, where both at their best places leave 0.08 stop (both worked out
 * from cos⁴ and cos³).
 */
function enoughDistanceMm({ lamps, frameWidthMm, frameHeightMm }: StudioSet): number {
  return lamps.length > 1 ? frameWidthMm : 1.43 * Math.hypot(frameWidthMm, frameHeightMm);
}

function withoutTint(set: StudioSet): StudioSet {
  return { ...set, background: { ...set.background, tint: () => [1, 1, 1] } };
}

const without = ({ weave, ...texture }: SurfaceTexture = {}): SurfaceTexture => texture;

const withTexture = (set: StudioSet, change: SurfaceTexture): StudioSet => ({
  ...set,
  texture: { ...set.texture, ...change },
});

const withLens = (set: StudioSet, change: Partial<StudioLens>): StudioSet =>
  set.lens ? { ...set, lens: { ...set.lens, ...change } } : set;

export const withLamps = (
  set: StudioSet,
  change: (lamp: StudioLamp, index: number) => Partial<StudioLamp>,
): StudioSet => ({ ...set, lamps: set.lamps.map((lamp, i) => ({ ...lamp, ...change(lamp, i) })) });

const meanOf = (lamps: readonly StudioLamp[], figure: (lamp: StudioLamp) => number) =>
  lamps.length === 0 ? 0 : lamps.reduce((sum, lamp) => sum + figure(lamp), 0) / lamps.length;
