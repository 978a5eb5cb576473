import type { Comparison } from '../engine/compare/compare-readings.ts';
import type { CellMap } from './cell-map.ts';
import { cellsPath } from './cells-path.ts';
import { clearOfLabels } from './clear-of-labels.ts';
import { type ContourPlot, contourPlot } from './contour-plot.ts';
import type { DrawnInSteps } from './drawn-in-steps.ts';
import type { MapPicture } from './falloff-picture.ts';
import { lightnessToGrey } from './lightness-to-grey.ts';
import { mapLines } from './map-lines.ts';
import { type DrawingSize, type MapPlot, shortest } from './map-plot.ts';
import { tintOffsetsPicture } from './tint-picture.ts';

/** L* of the most that was lost and of the most that was gained; a label in L* 8 stands out from either (WCAG 2.2, 1.4.3). */
const LOST_LIGHTNESS = 55;
const GAINED_LIGHTNESS = 96;
/** What the scale of greys can end at, in stops, so that two pictures can be compared at a glance. */
const REACHES = [0.05, 0.1, 0.2, 0.5, 1, 2, 5];
/** Steps of the lines, the finest first: tenths of a stop, or finer where the light hardly changed. */
const FINEST = [
  { reachEv: 0.06, unit: 0.01 },
  { reachEv: 0.15, unit: 0.02 },
  { reachEv: 0.4, unit: 0.05 },
];

/** A map of what changed, over the part that both takes show. */
export interface DifferencePlot extends MapPlot {
  /** Stops at the lightest and the darkest grey; 0 on a map of tint. */
  readonly reachEv: number;
}

/**
 * What was gained and lost in stops, what changed in common taken out: greys in equal steps of L* about the middle one,
 * lighter where it gained, hatched and darker where it lost, the line of no change boldest. Where nothing changed by more
 * than its ±, no line is drawn.
 */
export function* lightDifferencePlot(
  compared: Comparison,
  size: DrawingSize,
  linesOf = mapLines,
): DrawnInSteps<DifferencePlot> {
  const map: CellMap = { columns: compared.columns, rows: compared.rows, values: compared.evMap };
  const most = map.values.reduce(
    (reach, ev) => (Number.isNaN(ev) ? reach : Math.max(reach, Math.abs(ev))),
    0,
  );
  const isSeen = most > compared.cellPlusMinusEv;
  const unit = FINEST.find(({ reachEv }) => most <= reachEv)?.unit ?? 0.1;
  const contours: ContourPlot = isSeen
    ? yield* contourPlot(map, { ...size, unit, toleranceLevels: [0], labelOf: signed }, linesOf)
    : { lines: [], labels: [], step: unit };
  const reachEv = REACHES.find((reach) => reach >= most) ?? most;
  return {
    ...NO_MARKS,
    ...{ contours, reachEv },
    picture: differencePicture(map, reachEv),
    hatchedPath: cellsPath(map, (i) => Number.isNaN(map.values[i]!), size),
    lowerPath: isSeen ? cellsPath(map, (i) => map.values[i]! < 0, size) : '',
    clearPath: clearOfLabels(contours.labels, size),
  };
}

/** How the tint changed, in the true direction of the change, under lines of its Δu′v′; the limit's is boldest. */
export function* tintDifferencePlot(
  compared: Comparison,
  limitDeltaUv: number,
  size: DrawingSize,
  linesOf = mapLines,
): DrawnInSteps<DifferencePlot> {
  const { columns, rows, deltaUPrimeMap: deltaUPrimes, deltaVPrimeMap: deltaVPrimes } = compared;
  const values = deltaUPrimes.map((du, i) => Math.hypot(du, deltaVPrimes[i]!));
  const map: CellMap = { columns, rows, values };
  const labelOf = (level: number) => shortest(level, 3);
  const contours = yield* contourPlot(
    map,
    { ...size, unit: 0.001, toleranceLevels: [limitDeltaUv], labelOf },
    linesOf,
  );
  return {
    ...NO_MARKS,
    ...{ contours, reachEv: 0 },
    picture: tintOffsetsPicture({ columns, rows, deltaUPrimes, deltaVPrimes }, limitDeltaUv),
    hatchedPath: cellsPath(map, (i) => Number.isNaN(values[i]!), size),
    clearPath: clearOfLabels(contours.labels, size),
  };
}

const NO_MARKS = { cropPath: '', gradientPath: '', gradientHeadPath: '', hottest: null } as const;

/** Where the common part fills the drawing: as wide as there is room, as high as the frame's shape has it. */
export function differenceSize(
  { region }: Pick<Comparison, 'region'>,
  { widthPx, heightPx }: { readonly widthPx: number; readonly heightPx: number },
  room: { readonly width: number; readonly height: number },
): DrawingSize {
  const aspect = ((region.right - region.left) * widthPx) / ((region.bottom - region.top) * heightPx);
  const width = Math.max(1, Math.floor(Math.min(room.width, room.height * aspect)));
  return { width, height: Math.max(1, Math.round(width / aspect)), fontSize: 13 };
}

function signed(level: number): string {
  if (level === 0) return '0';
  return `${level > 0 ? '+' : '−'}${shortest(Math.abs(level), Math.abs(level) < 0.1 ? 2 : 1)}`;
}

function differencePicture({ columns, rows, values }: CellMap, reachEv: number): MapPicture {
  const middle = (LOST_LIGHTNESS + GAINED_LIGHTNESS) / 2;
  const rgba = new Uint8ClampedArray(columns * rows * 4);
  values.forEach((ev, i) => {
    if (Number.isNaN(ev)) return;
    const share = reachEv === 0 ? 0 : Math.min(1, Math.max(-1, ev / reachEv));
    const grey = lightnessToGrey(middle + share * (GAINED_LIGHTNESS - middle));
    rgba.set([grey, grey, grey, 255], i * 4);
  });
  return { columns, rows, rgba, strengthened: 1 };
}
