import type { FittingCells } from './fitting-cells.ts';
import type { ChannelCoefficients } from './surface.ts';

export interface HeldOutError {
  readonly heldOutEv: number;
  readonly heldOutStandardErrorEv: number;
}

/**
 * Root mean square error of luminance in stops over the cells, each foretold by a fit that its block had no part
 * in; cells count by their trust. The standard error is that of a mean over blocks, for cells of one block share
 * their errors.
 *
 * @param foretold log2 light of each usable cell and channel
 */
export function heldOutError(cells: FittingCells, foretold: ChannelCoefficients): HeldOutError {
  const [ofRed, ofGreen, ofBlue] = cells.luminanceOf;
  const squares = new Float64Array(cells.blocks);
  const counts = new Float64Array(cells.blocks);
  let total = 0;
  let trusted = 0;
  for (let at = 0; at < cells.count; at++) {
    const luminance =
      ofRed * Math.exp(Math.LN2 * foretold.red[at]!) +
      ofGreen * Math.exp(Math.LN2 * foretold.green[at]!) +
      ofBlue * Math.exp(Math.LN2 * foretold.blue[at]!);
    // a primary of negative luminance may bring a wild forecast to zero or below: as wrong as light can be
    const error = luminance > 0 ? Math.log2(luminance) - cells.log2Luminance[at]! : 16;
    const trust = cells.trust[at]!;
    squares[cells.block[at]!]! += trust * error * error;
    counts[cells.block[at]!]! += trust;
    total += trust * error * error;
    trusted += trust;
  }
  const mean = total / trusted;
  // variance of a ratio of block sums, by its linearisation
  let spread = 0;
  let blocks = 0;
  for (let block = 0; block < cells.blocks; block++) {
    if (counts[block] === 0) continue;
    spread += (squares[block]! - mean * counts[block]!) ** 2;
    blocks++;
  }
  const standardErrorOfMean = Math.sqrt((spread * blocks) / Math.max(1, blocks - 1)) / trusted;
  const heldOutEv = Math.sqrt(mean);
  return { heldOutEv, heldOutStandardErrorEv: heldOutEv > 0 ? standardErrorOfMean / (2 * heldOutEv) : 0 };
}
