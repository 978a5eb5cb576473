import { xyToUvPrime } from '../../../src/engine/colour/chromaticity.ts';

/** u′v′ of a printed chromaticity. */
export const uvOfXy = (x: number, y: number) => xyToUvPrime([x, y]);
