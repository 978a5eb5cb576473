import type { CellGrid } from '../grid/cell-grid.ts';
import { quantile } from '../numeric/quantile.ts';
import { cellLuminance } from './cell-luminance.ts';

/**
 * How far rounding to codes may move light in stops, crest to trough, where noise does not smooth it away: a code's
 * step at the frame's middle level × exp(−2π²(σ/step)²), the first harmonic of the rounding error (Widrow & Kollár,
 * Quantization Noise, 2008; from memory). `pixelNoise` is relative to the light; `null`: taken from the cells' scatter.
 */
export function undithered({ grid, pixelNoise }: { grid: CellGrid; pixelNoise: number | null }): number {
  const { light, scatter, codeStep } = cellLuminance(grid);
  const step = quantile(
    codeStep.map((value, cell) => value / light[cell]!),
    0.5,
  );
  const noise =
    pixelNoise ??
    quantile(
      scatter.map((value, cell) => value / light[cell]!),
      0.5,
    );
  if (!(step > 0)) return 0;
  return (step / Math.LN2) * Math.exp(-2 * (Math.PI * (noise / step)) ** 2);
}
