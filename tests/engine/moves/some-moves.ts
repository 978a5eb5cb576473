import type { Move } from '../../../src/engine/moves/move.ts';

type Of<Kind extends Move['kind']> = Extract<Move, { kind: Kind }>;

const OUTCOME = { bringsEv: null, toward: null, caution: null } as const;

/** To the right by 100 mm and up by 50, of a frame of 500. */
export const slid = (lamp: number): Of<'slide-lamp'> => ({
  ...{ kind: 'slide-lamp', lamp, rightMm: 100, downMm: -50, rightFrameWidths: 0.2, downFrameWidths: -0.1 },
  ...OUTCOME,
});

/** Turned to aim 150 mm farther left and 30 down, of a frame of 500. */
export const turned = (lamp: number): Of<'turn-lamp'> => ({
  ...{ kind: 'turn-lamp', lamp, aimRightMm: -150, aimDownMm: 30 },
  ...{ aimRightFrameWidths: -0.3, aimDownFrameWidths: 0.06 },
  ...OUTCOME,
});

export const setBack = (lamp: number, ratio: number | null): Of<'lamp-distance'> => ({
  ...{ kind: 'lamp-distance', lamp, ratio },
  ...OUTCOME,
});

export const powered = (lamp: number, stops: number): Of<'balance-lamps'> => ({
  ...{ kind: 'balance-lamps', lamp, stops },
  ...OUTCOME,
});

/** A gel that is greener by 0.001 too. */
export const gelled = (lamp: number, miredShift: number): Of<'gel' | 'lamp-colour'> => ({
  ...{ kind: 'gel', lamp, miredShift, duvShift: 0.001, leavesMired: null },
  ...OUTCOME,
});

export const whiteBalanced: Of<'white-balance'> = {
  ...{ kind: 'white-balance', miredShift: -20, duvShift: 0.002 },
  ...OUTCOME,
};
export const blocked: Of<'block-stray'> = { kind: 'block-stray', fromDeg: 90, ...OUTCOME };
export const diffused: Of<'add-diffusion'> = { kind: 'add-diffusion', ...OUTCOME };
export const exposed: Of<'expose'> = { kind: 'expose', stops: -1, ...OUTCOME };
export const tighter: Of<'frame-tighter'> = {
  ...{ kind: 'frame-tighter', left: 0.1, top: 0.1, right: 0.9, bottom: 0.9 },
  ...OUTCOME,
};
