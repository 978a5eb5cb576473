import { arrowHead } from './arrow-head.ts';
import { linePath } from './line-path.ts';
import type { PlanLengths } from './plan-lengths.ts';
import type { LightPlace } from './plan-light-places.ts';
import type { PlanProjection, PlanSide, SetPoint } from './plan-projection.ts';
import type { PlotPoint } from './plot-line.ts';

/** Something drawn, and the spot that a note on it points at. */
export interface PlanMark {
  readonly path: string;
  readonly at: PlotPoint;
}

/** A short stroke on the lit side of the surface. */
export function hottestTick([x, y]: PlotPoint, seenFrom: PlanSide, lampSide: number): PlanMark {
  const arm = 12;
  const to: PlotPoint = seenFrom === 'above' ? [x, y - lampSide * arm] : [x + lampSide * arm, y];
  return { path: linePath([[[x, y], to]]), at: to };
}

/** An arrow beside the surface, on the camera's side of it. */
export function brighterArrow(from: PlotPoint, to: PlotPoint, seenFrom: PlanSide): PlanMark {
  const off = 10;
  const shift = ([x, y]: PlotPoint): PlotPoint => (seenFrom === 'above' ? [x, y + off] : [x - off, y]);
  const [start, end] = [shift(from), shift(to)];
  return { path: linePath([[start, end]]) + arrowHead(start, end, 8), at: end };
}

/** Two strokes across each line that is drawn shorter than it is. */
export function breakStrokes(
  { cameraDistance, lampDistances }: PlanLengths,
  lights: readonly LightPlace[],
  frameAlong: number,
  { place, seenFrom }: PlanProjection,
): string {
  const middles: SetPoint[] = [];
  // on both lines of sight, which run from the camera to the frame's edges
  if (cameraDistance.isShortened)
    for (const side of [-1, 1]) middles.push([side * frameAlong * 0.25, -cameraDistance.mm * 0.5]);
  lampDistances.forEach(({ isShortened }, lamp) => {
    const { at, aim } = lights[lamp]!;
    if (isShortened) middles.push([aim[0] + (at[0] - aim[0]) * 0.7, at[1] * 0.7]);
  });
  return middles
    .map(place)
    .map(([x, y]) =>
      seenFrom === 'above'
        ? `M${round(x - 7)},${round(y)}l14,-5m-14,10l14,-5`
        : `M${round(x)},${round(y + 7)}l5,-14m-10,14l5,-14`,
    )
    .join('');
}

function round(value: number): number {
  return Math.round(value * 10) / 10;
}
