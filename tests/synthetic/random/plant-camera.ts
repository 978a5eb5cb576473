import type { Planter } from './planter.ts';

/** Natural fall as far as the lens's distance makes it, the rest by its barrel. */
export const plantLensFalloff: Planter = (set, { between, chance }, leads) => {
  const cornerEv = leads ? between(0.3, 0.6) : between(0.15, 0.2);
  const tangent = (0.5 * Math.hypot(set.frameWidthMm, set.frameHeightMm)) / set.cameraDistanceMm;
  const naturalEv = 2 * Math.log2(1 + tangent * tangent);
  const naturalFall = naturalEv <= cornerEv && chance(0.8);
  const mechanicalEv = cornerEv - (naturalFall ? naturalEv : 0);
  return {
    set: { ...set, lens: { ...set.lens, naturalFall, mechanicalEv } },
    facts: { kind: 'lens-falloff', cornerEv, mechanicalEv },
  };
};

export const plantLensColour: Planter = (set, { between, sign }, leads) => {
  const mired = sign() * (leads ? between(12, 25) : between(5, 8));
  const duv = between(-0.002, 0.002);
  const plain = set.lens ?? { naturalFall: false, mechanicalEv: 0 };
  return {
    set: { ...set, lens: { ...plain, colour: { cornerMired: mired, cornerDuv: duv } } },
    facts: { kind: 'lens-colour', mired, duv },
  };
};

/** Two to six bands, level in a frame as shot, upright in one that was turned. */
export const plantBands: Planter = (set, { between }, leads) => {
  const ofLines = 4000;
  const bands = {
    periodLines: ofLines / between(2, 6),
    ofLines,
    modulation: leads ? between(0.09, 0.25) : between(0.02, 0.04),
    phaseDeg: between(0, 360),
    run: set.frameHeightMm > set.frameWidthMm ? 'upright' : 'across',
  } as const;
  const { phaseDeg, ...facts } = bands;
  return { set: { ...set, bands }, facts: { kind: 'bands', ...facts } };
};
