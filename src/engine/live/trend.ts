/** Fewer pictures than these, or a shorter time, show no trend. */
const LEAST_PICTURES = 8;
const LEAST_S = 0.5;

/** Slope of the spread over time, least squares, in stops a second; `null` where it can't be told from its scatter. */
export function trendEvPerS(latest: readonly { atS: number; spreadEv: number }[]): number | null {
  const n = latest.length;
  if (n < LEAST_PICTURES || latest[n - 1]!.atS - latest[0]!.atS < LEAST_S) return null;
  const meanS = latest.reduce((sum, { atS }) => sum + atS, 0) / n;
  const meanEv = latest.reduce((sum, { spreadEv }) => sum + spreadEv, 0) / n;
  let [ss, se] = [0, 0];
  for (const { atS, spreadEv } of latest) {
    ss += (atS - meanS) ** 2;
    se += (atS - meanS) * (spreadEv - meanEv);
  }
  const slope = se / ss;
  const left = latest.reduce(
    (sum, { atS, spreadEv }) => sum + (spreadEv - meanEv - slope * (atS - meanS)) ** 2,
    0,
  );
  const slopeError = Math.sqrt(left / Math.max(1, n - 2) / ss);
  return Math.abs(slope) > 3 * slopeError ? slope : null;
}
