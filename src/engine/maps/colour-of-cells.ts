import type { CellChannels } from '../grid/cell-grid.ts';
import type { Matrix3 } from '../numeric/matrix3.ts';
import type { CellSmoother } from './smooth-cells.ts';

/** Luminance (linear, 1 = the white code's) and CIE 1976 chromaticity of cells; NaN where there is no light. */
export interface ColourMap {
  readonly luminance: Float64Array;
  readonly uPrime: Float64Array;
  readonly vPrime: Float64Array;
}

export function emptyColourMap(count: number): ColourMap {
  return {
    luminance: new Float64Array(count),
    uPrime: new Float64Array(count),
    vPrime: new Float64Array(count),
  };
}

/** Turns linear RGB of cells into luminance and chromaticity, written to `result`. Cells without light become NaN. */
export function colourOfCells({ red, green, blue }: CellChannels, m: Matrix3, result: ColourMap): void {
  const { luminance, uPrime, vPrime } = result;
  for (let i = 0; i < luminance.length; i++) {
    const r = red[i]!;
    const g = green[i]!;
    const b = blue[i]!;
    const x = m[0] * r + m[1] * g + m[2] * b;
    const y = m[3] * r + m[4] * g + m[5] * b;
    const z = m[6] * r + m[7] * g + m[8] * b;
    const denominator = x + 15 * y + 3 * z;
    if (y > 0 && denominator > 0) {
      luminance[i] = y;
      uPrime[i] = (4 * x) / denominator;
      vPrime[i] = (9 * y) / denominator;
    } else luminance[i] = uPrime[i] = vPrime[i] = Number.NaN;
  }
}

/** The luminance of {@link colourOfCells} alone, in half the time. */
export function luminanceOfCells({ red, green, blue }: CellChannels, m: Matrix3, result: Float64Array): void {
  const of = (channel: 0 | 1 | 2) => m[channel] + 15 * m[channel + 3]! + 3 * m[channel + 6]!;
  const [ofRed, ofGreen, ofBlue] = [of(0), of(1), of(2)];
  for (let i = 0; i < result.length; i++) {
    const r = red[i]!;
    const g = green[i]!;
    const b = blue[i]!;
    const y = m[3] * r + m[4] * g + m[5] * b;
    result[i] = y > 0 && ofRed * r + ofGreen * g + ofBlue * b > 0 ? y : Number.NaN;
  }
}

/** Smooths each channel of `light` into `result`. */
export function smoothChannels(smoother: CellSmoother, light: CellChannels, result: CellChannels): void {
  smoother.smooth(light.red, result.red);
  smoother.smooth(light.green, result.green);
  smoother.smooth(light.blue, result.blue);
}
