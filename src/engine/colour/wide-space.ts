import type { ChromaticityXy } from './chromaticity.ts';
import type { LinearRgbSpace } from './linear-rgb-space.ts';

/** The connection space's illuminant as the standard prints it, X and Z at Y = 1. Source: ICC.1:2010, 7.2.16. */
const [X, Z] = [0.9642, 0.8249];
const CONNECTION_WHITE: ChromaticityXy = [X / (X + 1 + Z), 1 / (X + 1 + Z)];

/**
 * A space that holds every colour of a surface, in which pictures are kept whose profile gives no RGB of its own. Its
 * white is the connection space's, so that what a profile calls white is 1, 1, 1 without an adaptation.
 * Source of the primaries: ISO 22028-2 (ROMM RGB), as remembered.
 */
export const WIDE_RGB: LinearRgbSpace = {
  name: 'wide RGB',
  primaries: { red: [0.7347, 0.2653], green: [0.1596, 0.8404], blue: [0.0366, 0.0001] },
  white: CONNECTION_WHITE,
};

/** Exponent that files in it are coded with: linear codes would waste half of them on the brightest stop. ISO 22028-2. */
export const WIDE_RGB_EXPONENT = 1.8;
