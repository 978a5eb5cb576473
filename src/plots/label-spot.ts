import { boxCrossedBy, boxesOverlap, cornersOf, type OrientedBox } from './oriented-box.ts';
import {
  type BoundedLine,
  distancesAlong,
  isClosed,
  type PlotLine,
  pointAlong,
  stretchOf,
} from './plot-line.ts';

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
  /** No label stands on one of these. */
  readonly taken: readonly OrientedBox[];
  /** Labels that say the same: another one near them would tell nothing. */
  readonly alike: readonly OrientedBox[];
  /** Every line of the map; the label's own is passed over. */
  readonly lines: readonly BoundedLine[];
  /** Lines that a label stands on only where its own line leaves it no other place. */
  readonly marks: readonly PlotLine[];
}

/** Places tried along a line, at least so far apart; and the clear space at a label's ends. */
const MOST_PLACES = 64;
const LEAST_STRIDE = 4;
const AIR = 3;
/** Shortest line and shortest ring that get a label, in its half widths: less would be all label and no line. */
const LEAST_LENGTH = 2.5;
const LEAST_RING = 8;
/** Between labels that say the same, in their own widths. */
const LEAST_WIDTHS_APART = 2.5;
/** More than the worst angle, bend and distance from the line's middle together. */
const COST_OF_A_MARK = 3;

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
  if (length < (isClosed(line) ? LEAST_RING : LEAST_LENGTH) * half) return null;
  let best: LabelSpot | null = null;
  let bestCost = Number.POSITIVE_INFINITY;
  const stride = Math.max(LEAST_STRIDE, length / MOST_PLACES);
  for (let middle = half; middle <= length - half; middle += stride) {
    const [x0, y0] = pointAlong(line, along, middle - half);
    const [x1, y1] = pointAlong(line, along, middle + half);
    const bent = 1 - Math.hypot(x1 - x0, y1 - y0) / (2 * half);
    if (bent > 0.08) continue;
    const angleDeg = readableAngleDeg(x1 - x0, y1 - y0);
    const offMiddle = Math.abs(middle - length / 2) / length;
    let cost = bent * 10 + Math.abs(angleDeg) / 90 + offMiddle * 0.5;
    if (cost >= bestCost) continue;
    const box = { x: (x0 + x1) / 2, y: (y0 + y1) / 2, width: 2 * half, height: label.height, angleDeg };
    if (around.marks.some((mark) => boxCrossedBy(box, mark))) cost += COST_OF_A_MARK;
    if (cost >= bestCost || !isClear(box, around)) continue;
    const spot = { box, gapFrom: middle - half, gapTo: middle + half };
    if (around.lines.some((other) => other.line !== line && isCrossed(box, other))) continue;
    if (returnsThrough(line, along, spot)) continue;
    bestCost = cost;
    best = spot;
  }
  return best;
}

/** The line in two pieces, without the stretch where its label stands. */
export function brokenAt(line: PlotLine, { gapFrom, gapTo }: LabelSpot): PlotLine[] {
  const along = distancesAlong(line);
  return [stretchOf(line, along, 0, gapFrom), stretchOf(line, along, gapTo, along[along.length - 1] ?? 0)];
}

/**
 * The direction of a line turned so that text along it is not upside down: above −100 and up to 80, so that labels of
 * lines that run up and down, now a little to one side and now to the other, all read upwards.
 */
function readableAngleDeg(dx: number, dy: number): number {
  const angle = (Math.atan2(dy, dx) * 180) / Math.PI;
  if (angle > 80) return angle - 180;
  return angle <= -100 ? angle + 180 : angle;
}

function isClear(box: OrientedBox, { width, height, taken, alike }: LabelSurroundings): boolean {
  const inside = cornersOf(box).every(([x, y]) => x >= 0 && y >= 0 && x <= width && y <= height);
  const withAir = { ...box, width: box.width + box.height }; // two labels end to end would read as one
  if (!inside || taken.some((other) => boxesOverlap(withAir, other))) return false;
  const apart = LEAST_WIDTHS_APART * box.width;
  return alike.every((other) => Math.hypot(other.x - box.x, other.y - box.y) >= apart);
}

function isCrossed(box: OrientedBox, { line, left, top, right, bottom }: BoundedLine): boolean {
  const reach = (box.width + box.height) / 2;
  if (box.x + reach < left || box.x - reach > right || box.y + reach < top || box.y - reach > bottom)
    return false;
  return boxCrossedBy(box, line);
}

/** Whether the label's own line comes back through it, as round a narrow bay. */
function returnsThrough(line: PlotLine, along: Float64Array, { box, gapFrom, gapTo }: LabelSpot): boolean {
  const text = { ...box, width: box.width - 2 * AIR };
  const before = stretchOf(line, along, 0, gapFrom);
  const after = stretchOf(line, along, gapTo, along[along.length - 1]!);
  return boxCrossedBy(text, before) || boxCrossedBy(text, after);
}
