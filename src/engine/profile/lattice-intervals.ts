/** Bilinear interpolation between so many errs by less than 0.002 EV over 3 EV of light as smooth as lamps make it. */
const USUAL_INTERVALS = 144;
/** As far as the number may give way for the region's edges to fall on nodes. */
const FEWEST_SHARE = 8 / 9;
const MOST_SHARE = 10 / 9;
const ON_A_NODE = 1e-9;

/** Intervals of the lattice across and down a frame: about square, more along its longer side. */
export function usualIntervals(widthPx: number, heightPx: number): { across: number; down: number } {
  const long = Math.max(widthPx, heightPx);
  return {
    across: Math.max(2, Math.round((USUAL_INTERVALS * widthPx) / long)),
    down: Math.max(2, Math.round((USUAL_INTERVALS * heightPx) / long)),
  };
}

/**
 * The number of intervals near `usual` whose outermost nodes inside the region lie nearest to its edges. Nodes
 * outside repeat those, so that any gap between is corrected as if the light stood still there.
 */
export function intervalsFor(from: number, to: number, usual: number): number {
  let best = usual;
  let least = gapTo(from, to, usual);
  for (let n = Math.ceil(usual * FEWEST_SHARE); n <= Math.floor(usual * MOST_SHARE); n++) {
    const gap = gapTo(from, to, n);
    if (gap < least - ON_A_NODE) {
      best = n;
      least = gap;
    }
  }
  return best;
}

/** Numbers of the first and last node inside, of `intervals` + 1 over 0 to 1; at least one node counts as inside. */
export function nodesInside(from: number, to: number, intervals: number): { first: number; last: number } {
  const first = Math.ceil(from * intervals - ON_A_NODE);
  const last = Math.floor(to * intervals + ON_A_NODE);
  if (first <= last) return { first, last };
  const nearest = Math.round(((from + to) / 2) * intervals);
  return { first: nearest, last: nearest };
}

function gapTo(from: number, to: number, intervals: number): number {
  const { first, last } = nodesInside(from, to, intervals);
  return Math.max(first / intervals - from, to - last / intervals);
}
