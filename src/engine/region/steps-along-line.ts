/** An abrupt change of light along a line of cells. */
export interface LineStep {
  /** Last cell that is surely on the brighter side, and first that is surely on the darker. */
  readonly bright: number;
  readonly dark: number;
  /** What smooth light on either side leaves unexplained, over 0. */
  readonly stops: number;
}

/** Most cells between both sides of a step; a change over more is a falloff. */
const WIDEST_GAP = 3;
/** Cells from which the light on either side is continued towards the step. */
const RUN = 4;
/** A narrower step that explains this share of a wider one says better where the edge lies. */
const NARROW_ENOUGH = 0.75;
/** Where one side holds a single cell at the frame's border, its slope is unknown and more is asked. */
const TIMES_AT_BORDER = 1.6;

/** Level and slope at the near end of a run of cells that leads away from a step; slope NaN for a single cell. */
function run(levels: Float64Array, near: number, away: 1 | -1): { level: number; slope: number } {
  let [n, sumX, sumY, sumXx, sumXy] = [0, 0, 0, 0, 0];
  for (let k = 0; k < RUN; k++) {
    const level = levels[near + k * away];
    if (level === undefined || Number.isNaN(level)) continue;
    n++;
    sumX += k;
    sumY += level;
    sumXx += k * k;
    sumXy += k * level;
  }
  if (n < 2) return { level: sumY / n, slope: Number.NaN };
  const slope = (n * sumXy - sumX * sumY) / (n * sumXx - sumX * sumX);
  return { level: (sumY - slope * sumX) / n, slope: slope * away };
}

/** How far the light on both sides of a gap, continued to its middle, lies apart; signed, positive where it rises. */
function unexplained(levels: Float64Array, before: number, after: number): number {
  const raw = levels[after]! - levels[before]!;
  if (Number.isNaN(raw)) return 0;
  const left = run(levels, before, -1);
  const right = run(levels, after, 1);
  const single = Number.isNaN(left.slope) || Number.isNaN(right.slope);
  const leftSlope = Number.isNaN(left.slope) ? right.slope : left.slope;
  const rightSlope = Number.isNaN(right.slope) ? left.slope : right.slope;
  const half = (after - before) / 2;
  const apart = right.level - rightSlope * half - (left.level + leftSlope * half);
  if (!(apart * raw > 0)) return 0; // a bend of the light, not a step
  const stops = Math.min(Math.abs(apart), Math.abs(raw)) / (single ? TIMES_AT_BORDER : 1);
  return Math.sign(raw) * stops;
}

/**
 * Steps over at least `leastStops` along a line of levels in stops: what remains of a change over one to a few cells
 * when the light's own slope on both sides is continued towards it. NaN cells are passed over.
 */
export function stepsAlongLine(levels: Float64Array, leastStops: number): LineStep[] {
  const found: (LineStep & { readonly first: number; readonly last: number })[] = [];
  for (let gap = 0; gap <= WIDEST_GAP; gap++) {
    const reach = gap + 1;
    const strengths = Float64Array.from({ length: Math.max(0, levels.length - reach) }, (_, first) =>
      unexplained(levels, first, first + reach),
    );
    const narrower = found.length;
    for (let first = 0; first < strengths.length; first++) {
      const signed = strengths[first]!;
      const stops = Math.abs(signed);
      if (!(stops >= leastStops)) continue;
      const last = first + reach;
      let strongest = true;
      for (let other = first - reach; other <= first + reach; other++)
        if (Math.abs(strengths[other] ?? 0) > stops) strongest = false;
      if (!strongest) continue;
      let known = false;
      for (let k = 0; k < narrower && !known; k++) {
        const step = found[k]!;
        known = step.first >= first && step.last <= last && step.stops >= NARROW_ENOUGH * stops;
      }
      if (known) continue;
      const [bright, dark] = signed > 0 ? [last, first] : [first, last];
      found.push({ bright, dark, stops, first, last });
    }
  }
  return found.map(({ bright, dark, stops }) => ({ bright, dark, stops }));
}
