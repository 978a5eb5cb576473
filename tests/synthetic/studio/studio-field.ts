import { quickened } from '../field-lattice.ts';
import type { KnownField } from '../known-field.ts';
import { bandShare } from './flicker-bands.ts';
import { photographSet, type SetTruth } from './photograph-set.ts';
import type { StudioSet } from './studio-set.ts';
import { surfaceShare } from './surface-share.ts';

/** A hundredth of what a reading resolves, from the fewest rays that give it. */
const LIGHT = { steps: [32, 64, 96, 192, 320], errorEv: 1e-5 };

/**
 * A set's field, quick enough to render large frames of: the light, which is dear and smooth, is read from a lattice
 * to 1e-5 EV; texture, rim and bands, which no lattice follows, are worked out at every place.
 */
export function studioField(set: StudioSet): { readonly field: KnownField; readonly truth: SetTruth } {
  const { truth } = photographSet(set);
  const exposure = { factor: truth.exposureFactor };
  const smooth = quickened(photographSet({ ...withoutFineParts(set), exposure }).field, LIGHT);
  const surface = surfaceShare(set);
  const bands = set.bands ? bandShare(set.bands) : () => 1;
  const slidMm = set.cameraRightMm ?? 0;
  const field: KnownField = (x, y) => {
    const light = smooth(x, y);
    const xMm = (x - 0.5) * set.frameWidthMm + slidMm;
    const share = surface(xMm, (y - 0.5) * set.frameHeightMm) * bands(x, y);
    return [light[0] * share, light[1] * share, light[2] * share];
  };
  return { field, truth };
}

const withoutFineParts = ({ texture, rim, bands, ...smooth }: StudioSet): StudioSet => smooth;
