import type { GainLattice, Profile } from '../../../src/engine/profile/profile.ts';

/** A profile of given gains; what a test leaves out is plain. */
export function profileOf(lattice: GainLattice, also: Partial<Profile> = {}): Profile {
  return {
    schema: 'evenfield.profile/1',
    madeFrom: {
      name: 'empty-sweep.png',
      sha256: null,
      widthPx: 720,
      heightPx: 480,
      orientation: 1,
      exposure: null,
      region: { left: 0, top: 0, right: 1, bottom: 1 },
    },
    colourSpace: {
      name: 'sRGB',
      primaries: { red: [0.64, 0.33], green: [0.3, 0.6], blue: [0.15, 0.06] },
      white: [0.3127, 0.329],
    },
    light: 'display-decoded',
    reference: 'mean',
    neutral: { red: 1, green: 1, blue: 1 },
    lattice,
    model: { name: 'spline', terms: 40, heldOutEv: 0.003, residualSpreadEv: 0.004 },
    gradient: {
      angleDeg: null,
      ev: 0,
      mired: null,
      duv: null,
      from: { x: 0, y: 0.5 },
      to: { x: 1, y: 0.5 },
      explains: 0,
      plusMinusDeg: null,
      plusMinusEv: 0.01,
      plusMinusMired: null,
    },
    tintGradient: { angleDeg: null, deltaUv: 0, mired: null, duv: null },
    ...also,
  };
}

/** A lattice of log2 gains by a function of place, 0 to 1 across the upright frame. */
export function latticeOf(
  columns: number,
  rows: number,
  log2Gain: (x: number, y: number) => readonly [number, number, number],
): GainLattice {
  const nodes = (channel: 0 | 1 | 2) =>
    Array.from(
      { length: columns * rows },
      (_, at) => log2Gain((at % columns) / (columns - 1), Math.floor(at / columns) / (rows - 1))[channel],
    );
  return { columns, rows, red: nodes(0), green: nodes(1), blue: nodes(2) };
}
