import type { ChromaticityXy } from '../../../src/engine/colour/chromaticity.ts';

// Source: CIE 15 and CIE TC 1-48, chromaticities of the standard illuminants, 2°, at the digits they are quoted with.

export const D55: ChromaticityXy = [0.33243, 0.34744];
export const D75: ChromaticityXy = [0.29903, 0.31488];
export const ILLUMINANT_A: ChromaticityXy = [0.44758, 0.40745];
