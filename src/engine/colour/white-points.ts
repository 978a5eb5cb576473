import type { ChromaticityXy } from './chromaticity.ts';

// Source: CIE 15 and CIE TC 1-48, chromaticities of the standard illuminants, 2°, at the digits they are quoted with.

export const D50: ChromaticityXy = [0.3457, 0.3585];
export const D55: ChromaticityXy = [0.33243, 0.34744];
export const D75: ChromaticityXy = [0.29903, 0.31488];
export const ILLUMINANT_A: ChromaticityXy = [0.44758, 0.40745];
export const EQUAL_ENERGY: ChromaticityXy = [1 / 3, 1 / 3];

/** As IEC 61966-2-1 and Rec. ITU-R BT.709 print it: files are coded against these four digits. */
export const D65: ChromaticityXy = [0.3127, 0.329];
