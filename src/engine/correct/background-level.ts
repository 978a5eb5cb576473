import type { LinearFrame } from '../frame/linear-frame.ts';
import { storedRegion } from '../grid/stored-region.ts';
import type { Profile } from '../profile/profile.ts';
import type { FrameGains } from './frame-gains.ts';
import { halfSampleMode } from './half-sample-mode.ts';
import { lightRows } from './light-rows.ts';
import type { Matte } from './matte/find-matte.ts';

/** Blocks along the longer side: enough that a background of a tenth of the frame shows. */
const BLOCKS = 96;

/**
 * Level of a corrected frame's background in stops of luminance against white. Corrected light is of one level over
 * all of the background and of many over a subject, so it is the level that most blocks of the region share; by a
 * matte, of those that it holds for background. `null` where nothing there has light.
 */
export function backgroundLevel(
  frame: LinearFrame,
  gains: FrameGains,
  profile: Profile,
  matte: Matte | null,
): number | null {
  const { x0, y0, x1, y1 } = storedRegion(frame, profile.madeFrom.region);
  const blockPx = Math.max(1, Math.floor(Math.max(x1 - x0, y1 - y0) / BLOCKS));
  const across = Math.floor((x1 - x0) / blockPx);
  const rows = lightRows(frame, gains, null);
  const { toXyz } = frame;
  const levels: number[] = [];
  for (let top = y0; top + blockPx <= y1; top += blockPx) {
    const sums = new Float64Array(across);
    for (let row = top; row < top + blockPx; row++) {
      const [red, green, blue] = rows.fill(row);
      for (let block = 0, i = x0; block < across; block++)
        for (const end = i + blockPx; i < end; i++)
          sums[block]! += toXyz[3] * red[i]! + toXyz[4] * green[i]! + toXyz[5] * blue[i]!;
    }
    for (let block = 0; block < across; block++) {
      const middle = x0 + (block + 0.5) * blockPx;
      if (matte && !isBackground(matte, middle / frame.widthPx, (top + blockPx / 2) / frame.heightPx))
        continue;
      if (sums[block]! > 0) levels.push(Math.log2(sums[block]! / blockPx ** 2));
    }
  }
  return levels.length > 0 ? halfSampleMode(levels) : null;
}

/** Places 0 to 1 across the frame as stored. */
function isBackground({ columns, rows, background }: Matte, x: number, y: number): boolean {
  return background[Math.floor(y * rows) * columns + Math.floor(x * columns)] === 1;
}
