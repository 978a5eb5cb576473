import type { RegionGeometry } from '../maps/cell-plane.ts';
import type { FigureTaker, FrameFigures } from '../maps/frame-figures.ts';
import type { Matrix3 } from '../numeric/matrix3.ts';
import { correctionGradient } from './correction-gradient.ts';
import type { FigurePlusMinus } from './figure-plus-minus.ts';

/**
 * What a doubt of the light itself, as a tone curve that is not known, adds to the ± of each figure in stops. `taker`
 * holds the maps of the figures; `doubtEv` tells what a falloff between two levels of linear light may be wrong by.
 */
export function doubtPlusMinus(
  { smoothed: { luminance } }: FigureTaker,
  figures: FrameFigures,
  geometry: RegionGeometry,
  toXyz: Matrix3,
  doubtEv: (bright: number, dark: number) => number,
): Pick<FigurePlusMinus, 'spreadEv' | 'cellEv' | 'gradientEv'> {
  const brightest = luminance[figures.brightestCell]!;
  let squares = 0;
  let cells = 0;
  for (const level of luminance) {
    if (Number.isNaN(level)) continue;
    squares += doubtEv(brightest, level) ** 2;
    cells++;
  }
  const half = correctionGradient(figures, geometry, toXyz).ev / 2;
  return {
    spreadEv: doubtEv(brightest, luminance[figures.darkestCell]!),
    cellEv: Math.sqrt(squares / cells),
    gradientEv: doubtEv(figures.meanY * 2 ** half, figures.meanY * 2 ** -half),
  };
}
