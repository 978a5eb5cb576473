import type { ChromaticityXy } from './chromaticity.ts';

// Source: CIE 15 and CIE TC 1-48, chromaticities of the standard illuminants, 2°, at the digits they are quoted with.

export const D50: ChromaticityXy = [0.3457, 0.3585];

/** As IEC 61966-2-1 and Rec. ITU-R BT.709 print it: files are coded against these four digits. */
export const D65: ChromaticityXy = [0.3127, 0.329];
