import { cubicBSplineAt } from '../numeric/cubic-b-spline.ts';
import type { FrameRectangle } from '../reading.ts';
import type { SurfaceBasis } from './surface-basis.ts';

export interface SplineSpans {
  readonly spansAcross: number;
  readonly spansDown: number;
}

/** Products of a cubic B-spline across and one down; the side with fewer of them runs innermost, for a narrow band. */
export function splineBasis(region: FrameRectangle, { spansAcross, spansDown }: SplineSpans): SurfaceBasis {
  const across = spansAcross + 3;
  const down = spansDown + 3;
  const downInnermost = down <= across;
  const inner = downInnermost ? down : across;
  const valuesAcross = new Float64Array(4);
  const valuesDown = new Float64Array(4);
  const outerValues = downInnermost ? valuesAcross : valuesDown;
  const innerValues = downInnermost ? valuesDown : valuesAcross;
  return {
    size: across * down,
    halfBandwidth: 3 * inner + 3,
    runs: 4,
    runLength: 4,
    runStride: inner,
    write(x, y, values, offset) {
      const column = cubicBSplineAt(
        (x - region.left) / (region.right - region.left),
        spansAcross,
        valuesAcross,
      );
      const row = cubicBSplineAt((y - region.top) / (region.bottom - region.top), spansDown, valuesDown);
      for (let i = 0; i < 4; i++) {
        for (let j = 0; j < 4; j++) values[offset + i * 4 + j] = outerValues[i]! * innerValues[j]!;
      }
      return downInnermost ? column * inner + row : row * inner + column;
    },
  };
}
