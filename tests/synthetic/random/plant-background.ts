import { tintedAllOver, tintedOnOneSide } from '../studio/sheet-tints.ts';
import type { StudioSet, SurfaceTexture, SurfaceTint } from '../studio/studio-set.ts';
import type { Draws } from './draws.ts';
import type { Planter } from './planter.ts';

/** A sheet too thin, or a panel that does not spread its light. */
export const plantHotSpot: Planter = (set, { between, either }, leads) => {
  const { background } = set;
  if (background.kind === 'sheet') {
    const forwardShare = leads ? between(0.2, 0.6) : between(0.04, 0.08);
    const lobeDeg = between(12, 35);
    return {
      set: { ...set, background: { ...background, forwardShare, lobeDeg } },
      facts: { kind: 'hot-spot', of: 'sheet', forwardShare, lobeDeg },
    };
  }
  if (background.kind !== 'panel') throw new TypeError(`a ${background.kind} has no hot spot of its own`);
  const hotter = either(['middle', 'sides'] as const);
  const change =
    hotter === 'middle'
      ? { middleEv: leads ? between(0.4, 1.2) : between(0.12, 0.2) }
      : { carriesMm: set.frameWidthMm * (leads ? between(0.35, 0.6) : between(0.9, 1.2)) };
  return {
    set: { ...set, background: { ...background, ...change } },
    facts: { kind: 'hot-spot', of: 'panel', hotter },
  };
};

export const plantTintAllOver: Planter = (set, draws, leads) => {
  const { mired, duv } = tintOf(draws, leads);
  return {
    set: withTint(set, tintedAllOver(mired, duv)),
    facts: { kind: 'tinted-all-over', mired, duv },
  };
};

export const plantTintOnOneSide: Planter = (set, draws, leads) => {
  const { mired, duv } = tintOf(draws, leads);
  const towardDeg = draws.between(0, 360);
  const softMm = set.frameWidthMm * draws.between(0.15, 0.4);
  return {
    set: withTint(set, tintedOnOneSide({ mired, duv, towardDeg, softMm })),
    facts: { kind: 'tinted-on-one-side', mired, duv, towardDeg },
  };
};

export const plantRim: Planter = (set, { between, either }) => {
  const rim = {
    side: either(['left', 'right', 'top', 'bottom'] as const),
    reach: between(0.03, 0.1),
    level: between(0.03, 0.3),
    soft: between(0.003, 0.01),
  };
  return {
    set: { ...set, rim },
    facts: { kind: 'rim-in-view', side: rim.side, reach: rim.reach, level: rim.level },
  };
};

/** A few folds: dark valleys and bright ridges, more or less in one direction as a sheet was folded. */
export const plantCreases: Planter = (set, { between, either, sign }) => {
  const count = either([1, 2, 3, 4, 5]);
  const widthMm = (set.frameWidthMm / 600) * between(2, 6);
  const folded = between(0, 180);
  const creases = Array.from({ length: count }, () => ({
    xMm: set.frameWidthMm * between(-0.4, 0.4),
    yMm: set.frameHeightMm * between(-0.4, 0.4),
    angleDeg: folded + either([0, 90]) + between(-6, 6),
    widthMm,
    depthEv: sign() * between(0.04, 0.15),
  }));
  const deepestEv = Math.max(...creases.map(({ depthEv }) => Math.abs(depthEv)));
  return { set: withTexture(set, { creases }), facts: { kind: 'creases', count, deepestEv, widthMm } };
};

/** Threads of 4 to 10 pixels in a frame 1200 wide. */
export const plantWeave: Planter = (set, { between }) => {
  const pitchMm = (set.frameWidthMm / 1200) * between(4, 10);
  const rangeEv = between(0.04, 0.15);
  const weave = { pitchRightMm: pitchMm, pitchDownMm: pitchMm * between(0.85, 1.2), rangeEv };
  return { set: withTexture(set, { weave }), facts: { kind: 'weave', pitchMm, rangeEv } };
};

/** Dust of 2 to 6 pixels' radius in a frame 1200 wide. */
export const plantSpecks: Planter = (set, { between, either }) => {
  const count = either([4, 8, 12, 20, 30]);
  const radiusMm = (set.frameWidthMm / 1200) * between(2.5, 5);
  const dust = Array.from({ length: count }, () => ({
    xMm: set.frameWidthMm * between(-0.48, 0.48),
    yMm: set.frameHeightMm * between(-0.48, 0.48),
    radiusMm: radiusMm * between(0.8, 1.2),
    depthEv: between(0.1, 0.5),
  }));
  const deepestEv = Math.max(...dust.map(({ depthEv }) => depthEv));
  return { set: withTexture(set, { dust }), facts: { kind: 'specks', count, deepestEv, radiusMm } };
};

/** Aged sheets are warm and a little green; a cold one is a new sheet of another make. */
function tintOf({ between, chance }: Draws, leads: boolean) {
  const mired = (chance(0.8) ? 1 : -1) * (leads ? between(14, 50) : between(6, 9));
  return { mired, duv: between(-0.001, 0.003) };
}

const withTint = (set: StudioSet, tint: SurfaceTint): StudioSet => ({
  ...set,
  background: { ...set.background, tint },
});

const withTexture = (set: StudioSet, texture: SurfaceTexture): StudioSet => ({
  ...set,
  texture: { ...set.texture, ...texture },
});
