/**
 * Specks are what lies further from the median than this many robust standard deviations. With 3, faint specks on a
 * tenth of a dark 8-bit cell would move it by 0.012 EV; under 2.6, noise itself is taken for specks in small cells…
 */
const REJECT_SIGMA = 2.7;
/** …where it is a larger share of the cell than noise explains; otherwise only what lies further than this goes. */
const NOISE_SHARE = 0.04;
const NEVER_KEPT_SIGMA = 6;
/** Half-width, in bins, that is always kept, so that a flat cell of two neighbouring codes loses neither. */
const ALWAYS_KEPT_BINS = 1.5;
/** Interquartile range of a normal distribution in standard deviations. */
const IQR_OF_NORMAL = 1.3489795;

/** An inclusive range of codes. */
export interface CodeRange {
  low: number;
  high: number;
}

/** Continuous code below which the share `p` of the counted pixels lies, each bin taken as evenly filled. */
function codeAtShare(
  counts: Uint32Array,
  offset: number,
  firstBin: number,
  total: number,
  p: number,
  codesPerBin: number,
): number {
  const wanted = p * total;
  let below = 0;
  let bin = firstBin;
  while (below + counts[offset + bin]! < wanted) below += counts[offset + bin++]!;
  return (bin + (wanted - below) / counts[offset + bin]!) * codesPerBin - 0.5;
}

function lightAt(lightAtCode: Float64Array, code: number): number {
  const last = lightAtCode.length - 1;
  const clamped = Math.max(0, Math.min(last, code));
  const below = Math.floor(clamped);
  const low = lightAtCode[below]!;
  return below === last ? low : low + (lightAtCode[below + 1]! - low) * (clamped - below);
}

/** First code whose light is at least `light`. */
function firstCodeAtLeast(lightAtCode: Float64Array, light: number): number {
  let low = 0;
  let high = lightAtCode.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (lightAtCode[middle]! < light) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** Sets `range` to the codes within `reach` (linear light) of the median, and always those next to it. */
function setRange(
  range: CodeRange,
  lightAtCode: Float64Array,
  median: number,
  medianCode: number,
  reach: number,
  codesPerBin: number,
): void {
  const lowest = Math.ceil(medianCode - ALWAYS_KEPT_BINS * codesPerBin);
  const highest = Math.floor(medianCode + ALWAYS_KEPT_BINS * codesPerBin);
  range.low = Math.max(0, Math.min(lowest, firstCodeAtLeast(lightAtCode, median - reach)));
  range.high = Math.min(
    lightAtCode.length - 1,
    Math.max(highest, firstCodeAtLeast(lightAtCode, median + reach * (1 + 1e-12)) - 1),
  );
}

/**
 * Which codes of a cell's histogram count as background: those near the median in robust standard deviations, both taken
 * from quartiles in linear light. A symmetric limit keeps the mean of what is left unbiased under a gradient and shot
 * noise, while up to a fifth of the cell may be something else. Where so few pixels lie outside that noise explains them, the
 * limit is six deviations: cutting the tails of a Poisson distribution would bias the mean by its skewness.
 *
 * `counts` holds one count a bin of `codesPerBin` codes from `offset` on; `firstBin` is the lowest that is not
 * empty, `total` their sum (at least 1). Writes to `range`, so that the pass over the cells allocates nothing.
 */
export function keptCodes(
  counts: Uint32Array,
  offset: number,
  firstBin: number,
  total: number,
  codesPerBin: number,
  lightAtCode: Float64Array,
  range: CodeRange,
): void {
  const medianCode = codeAtShare(counts, offset, firstBin, total, 0.5, codesPerBin);
  const lower = lightAt(lightAtCode, codeAtShare(counts, offset, firstBin, total, 0.25, codesPerBin));
  const upper = lightAt(lightAtCode, codeAtShare(counts, offset, firstBin, total, 0.75, codesPerBin));
  const median = lightAt(lightAtCode, medianCode);
  const sigma = (upper - lower) / IQR_OF_NORMAL;
  setRange(range, lightAtCode, median, medianCode, REJECT_SIGMA * sigma, codesPerBin);
  let kept = 0;
  const lastBin = Math.floor(range.high / codesPerBin);
  for (let bin = Math.floor(range.low / codesPerBin); bin <= lastBin; bin++) kept += counts[offset + bin]!;
  if (total - kept > NOISE_SHARE * total) return;
  setRange(range, lightAtCode, median, medianCode, NEVER_KEPT_SIGMA * sigma, codesPerBin);
}
