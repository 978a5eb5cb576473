import type { ChromaticityXy } from './chromaticity.ts';

// Sources: the chromaticities of the CIE standard illuminants at five digits (CIE 15, table of illuminants, 2°).

export const D50: ChromaticityXy = [0.3457, 0.3585];
export const D55: ChromaticityXy = [0.33243, 0.34744];
export const D75: ChromaticityXy = [0.29903, 0.31488];
export const ILLUMINANT_A: ChromaticityXy = [0.44758, 0.40745];
export const EQUAL_ENERGY: ChromaticityXy = [1 / 3, 1 / 3];

/**
 * As IEC 61966-2-1 and Rec. ITU-R BT.709 round it; the CIE table's five digits, 0.31272 and 0.32903, are not what
 * files are coded against.
 */
export const D65: ChromaticityXy = [0.3127, 0.329];
