import type { LinearFrame } from '../frame/linear-frame.ts';
import { countDeepColours, DEEP_BIN_BITS, DEEP_BIN_CODES, emptyDeepSums } from './deep-colours.ts';
import { type CodeRange, keptCodes } from './kept-codes.ts';
import { type KeptSums, sumCounts, sumPixels } from './kept-sums.ts';
import type { PixelRectangle } from './upright-rectangle.ts';

/** What one cell's pixels come to; one object is written again for every cell. */
export interface CellTally {
  pixels: number;
  red: number;
  green: number;
  blue: number;
  redScatter: number;
  greenScatter: number;
  blueScatter: number;
  highlightShare: number;
  shadowShare: number;
  speckShare: number;
  darkSpeckShare: number;
}

/** Counts the cell's codes into `counts` (three banks of `bins`); `shift` turns a code into its bin. */
function count(
  frame: LinearFrame,
  cell: PixelRectangle,
  counts: Uint32Array,
  bins: number,
  shift: number,
): void {
  const { samples, channels, widthPx } = frame;
  const grey = channels < 3;
  for (let y = cell.y0; y < cell.y1; y++) {
    const end = (y * widthPx + cell.x1) * channels;
    let i = (y * widthPx + cell.x0) * channels;
    if (grey) {
      for (; i < end; i += channels) counts[samples[i]! >> shift]!++;
    } else {
      for (; i < end; i += channels) {
        counts[samples[i]! >> shift]!++;
        counts[bins + (samples[i + 1]! >> shift)]!++;
        counts[2 * bins + (samples[i + 2]! >> shift)]!++;
      }
    }
  }
}

/** The same for 8-bit RGBA read as whole words: twice as fast, and what every JPEG comes as. */
function countWords(words: Uint32Array, widthPx: number, cell: PixelRectangle, counts: Uint32Array): void {
  for (let y = cell.y0; y < cell.y1; y++) {
    const end = y * widthPx + cell.x1;
    for (let i = y * widthPx + cell.x0; i < end; i++) {
      const word = words[i]!;
      counts[word & 255]!++;
      counts[256 + ((word >> 8) & 255)]!++;
      counts[512 + ((word >> 16) & 255)]!++;
    }
  }
}

/**
 * Narrows or widens `range` to the bins that hold anything, `pixels` in all: it comes as that of the cell before, whose
 * light is nearly the same, so that few of the thousands of bins are looked at.
 */
function findUsedBins(
  counts: Uint32Array,
  offset: number,
  bins: number,
  pixels: number,
  range: CodeRange,
): void {
  let { low, high } = range;
  let found = 0;
  for (let bin = low; bin <= high; bin++) found += counts[offset + bin]!;
  for (let reach = 16; found < pixels; reach *= 2) {
    const [from, to] = [Math.max(0, low - reach), Math.min(bins - 1, high + reach)];
    for (let bin = from; bin < low; bin++) found += counts[offset + bin]!;
    for (let bin = high + 1; bin <= to; bin++) found += counts[offset + bin]!;
    [low, high] = [from, to];
  }
  while (counts[offset + low] === 0) low++;
  while (counts[offset + high] === 0) high--;
  range.low = low;
  range.high = high;
}

/** Share of pixels with any channel at or above `clip`, and at or below `floor`, or marked as such. */
function extremeShares(
  frame: LinearFrame,
  cell: PixelRectangle,
  tally: CellTally,
  clip: number,
  floor: number,
): void {
  const { samples, channels, widthPx } = frame;
  const second = channels < 3 ? 0 : 1;
  const third = channels < 3 ? 0 : 2;
  const marks = frame.fileCodes?.extremes;
  let high = 0;
  let low = 0;
  for (let y = cell.y0; y < cell.y1; y++) {
    if (marks) {
      for (let i = y * widthPx + cell.x0; i < y * widthPx + cell.x1; i++) {
        high += marks[i]! & 1;
        low += marks[i]! >> 1;
      }
      continue;
    }
    const end = (y * widthPx + cell.x1) * channels;
    for (let i = (y * widthPx + cell.x0) * channels; i < end; i += channels) {
      const a = samples[i]!;
      const b = samples[i + second]!;
      const c = samples[i + third]!;
      if (a >= clip || b >= clip || c >= clip) high++;
      if (a <= floor || b <= floor || c <= floor) low++;
    }
  }
  tally.highlightShare = high / tally.pixels;
  tally.shadowShare = low / tally.pixels;
}

/**
 * Prepares to tally the cells of one frame: for each channel the robust mean of linear light (see
 * {@link keptCodes}), the scatter of single pixels about it, and the shares that are clipped, blocked or specks.
 * Returns a function that takes a cell in stored pixels (not empty) and fills `tally`.
 */
export function cellTallier(frame: LinearFrame, tally: CellTally): (cell: PixelRectangle) => void {
  const deep = frame.bitsPerSample === 16;
  const codesPerBin = deep ? DEEP_BIN_CODES : 1;
  const shift = deep ? DEEP_BIN_BITS : 0;
  const bins = 2 ** frame.bitsPerSample / codesPerBin;
  const banks = frame.channels < 3 ? 1 : 3;
  const counts = new Uint32Array(3 * bins);
  const { samples, widthPx, channels, clipCode, floorCode } = frame;
  const { red, green, blue } = frame.lightAtCode;
  const tables = [red, green, blue];
  const range: CodeRange = { low: 0, high: 0 };
  const sums: KeptSums = { kept: 0, sum: 0, squares: 0 };
  const allSums = deep && banks === 3 ? emptyDeepSums() : null;
  const used: CodeRange[] = [0, 1, 2].map(() => ({ low: 0, high: 0 }));
  const mean = [0, 0, 0];
  const scatter = [0, 0, 0];
  const words =
    !deep && channels === 4 && samples.byteOffset % 4 === 0
      ? new Uint32Array(samples.buffer, samples.byteOffset, samples.length / 4)
      : null;

  /** Sums of light over the codes in `range`: straight from the counts at 8 bits; at 16 over the pixels, once where all are kept. */
  function sumKept(bank: number, cell: PixelRectangle, pixels: number): number {
    const light = tables[bank]!;
    const { low, high } = range;
    const { low: first, high: last } = used[bank]!;
    let reference = light[Math.min(high, Math.max(low, (low + high) >> 1))]!; // near the mean: no cancellation
    if (allSums && low <= first * codesPerBin && high >= (last + 1) * codesPerBin - 1) {
      reference = allSums.reference[bank]!;
      sums.kept = pixels;
      sums.sum = allSums.light[bank]!;
      sums.squares = allSums.squares[bank]!;
    } else if (deep) sumPixels(frame, cell, bank, light, range, reference, sums);
    else sumCounts(counts, bank * bins, light, range, reference, sums);
    const { kept, sum, squares } = sums;
    mean[bank] = reference + sum / kept;
    scatter[bank] = Math.sqrt(Math.max(0, squares / kept - (sum / kept) ** 2));
    return kept;
  }

  return (cell) => {
    const pixels = (cell.x1 - cell.x0) * (cell.y1 - cell.y0);
    if (allSums) countDeepColours(frame, cell, counts, allSums);
    else if (words) countWords(words, widthPx, cell, counts);
    else count(frame, cell, counts, bins, shift);
    tally.pixels = pixels;
    tally.speckShare = 0;
    tally.darkSpeckShare = 0;
    let touchesEnds = frame.fileCodes !== undefined;
    for (let bank = 0; bank < banks; bank++) {
      findUsedBins(counts, bank * bins, bins, pixels, used[bank]!);
      const { low: first, high: last } = used[bank]!;
      if (first <= floorCode >> shift || last >= clipCode >> shift) touchesEnds = true;
      keptCodes(counts, bank * bins, first, pixels, codesPerBin, tables[bank]!, range);
      const kept = sumKept(bank, cell, pixels);
      tally.speckShare = Math.max(tally.speckShare, 1 - kept / pixels);
      let dark = 0;
      for (let bin = first; bin < range.low >> shift; bin++) dark += counts[bank * bins + bin]!;
      tally.darkSpeckShare = Math.max(tally.darkSpeckShare, dark / pixels);
      counts.fill(0, bank * bins + first, bank * bins + last + 1);
    }
    const second = banks === 1 ? 0 : 1;
    const third = banks === 1 ? 0 : 2;
    tally.red = mean[0]!;
    tally.green = mean[second]!;
    tally.blue = mean[third]!;
    tally.redScatter = scatter[0]!;
    tally.greenScatter = scatter[second]!;
    tally.blueScatter = scatter[third]!;
    tally.highlightShare = 0;
    tally.shadowShare = 0;
    if (touchesEnds) extremeShares(frame, cell, tally, clipCode, floorCode);
  };
}
