import { boxesOverlap, boxHoldsAny, cornersOf, type OrientedBox } from './oriented-box.ts';
import { distancesAlong, type PlotLine, pointAlong } from './plot-line.ts';

/** Where a line breaks for its label; distances along the line. */
export interface LabelSpot {
  readonly box: OrientedBox;
  readonly gapFrom: number;
  readonly gapTo: number;
}

/** What a label has to keep clear of. */
export interface LabelSurroundings {
  readonly width: number;
  readonly height: number;
  readonly labels: readonly OrientedBox[];
  readonly otherLines: readonly PlotLine[];
}

/** Places tried along a line, at least so far apart; and the clear space at a label's ends. */
const MOST_PLACES = 64;
const LEAST_STRIDE = 4;
const AIR = 3;

/**
 * The place on a line where a label of the given size reads best: where the line is straight and near level.
 * The label stands upright. `null` where no place keeps clear of the frame's edge, of earlier labels and of
 * other lines: better no label than one on top of another.
 */
export function labelSpot(
  line: PlotLine,
  label: { width: number; height: number },
  around: LabelSurroundings,
): LabelSpot | null {
  const along = distancesAlong(line);
  const length = along[along.length - 1] ?? 0;
  const half = label.width / 2 + AIR;
  if (length < 2.5 * half) return null;
  let best: LabelSpot | null = null;
  let bestCost = Number.POSITIVE_INFINITY;
  const stride = Math.max(LEAST_STRIDE, length / MOST_PLACES);
  for (let middle = half; middle <= length - half; middle += stride) {
    const [x0, y0] = pointAlong(line, along, middle - half);
    const [x1, y1] = pointAlong(line, along, middle + half);
    const bent = 1 - Math.hypot(x1 - x0, y1 - y0) / (2 * half);
    if (bent > 0.08) continue;
    const angleDeg = uprightAngleDeg(x1 - x0, y1 - y0);
    const offMiddle = Math.abs(middle - length / 2) / length;
    const cost = bent * 10 + Math.abs(angleDeg) / 90 + offMiddle * 0.5;
    if (cost >= bestCost) continue;
    const box = { x: (x0 + x1) / 2, y: (y0 + y1) / 2, width: 2 * half, height: label.height, angleDeg };
    if (!isClear(box, line, around)) continue;
    bestCost = cost;
    best = { box, gapFrom: middle - half, gapTo: middle + half };
  }
  return best;
}

/** The direction of a line turned so that text along it is never upside down: above −90 and up to 90. */
function uprightAngleDeg(dx: number, dy: number): number {
  const angle = (Math.atan2(dy, dx) * 180) / Math.PI;
  if (angle > 90) return angle - 180;
  return angle <= -90 ? angle + 180 : angle;
}

function isClear(box: OrientedBox, own: PlotLine, around: LabelSurroundings): boolean {
  const inside = cornersOf(box).every(
    ([x, y]) => x >= 0 && y >= 0 && x <= around.width && y <= around.height,
  );
  if (!inside || around.labels.some((other) => boxesOverlap(box, other))) return false;
  return around.otherLines.every((line) => line === own || !boxHoldsAny(box, line));
}
