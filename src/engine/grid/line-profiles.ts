import type { LinearFrame } from '../frame/linear-frame.ts';
import type { FrameRectangle } from '../reading.ts';
import { storedRegion } from './stored-region.ts';
import { orientationTurnsSideways } from './upright-rectangle.ts';

/** Strips that a line is divided into: what is true of the whole line shows in every one of them. */
export const STRIPS = 8;

/** Mean light of every line of pixels within each of {@link STRIPS} equal strips across it; strip by strip. */
export interface LineProfile {
  readonly lines: number;
  /** {@link STRIPS} × `lines`, linear light of the green channel. */
  readonly light: Float32Array;
}

/** Both ways over the upright region: rows from the top, their strips from the left; columns from the left. */
export interface LineProfiles {
  readonly rows: LineProfile;
  readonly columns: LineProfile;
}

/**
 * Averages every row and every column of pixels of a region of the upright frame, in one pass over its stored codes.
 * Green alone stands for the light: its noise is the lowest, and a mean over hundreds of pixels needs no more.
 */
export function lineProfiles(frame: LinearFrame, region: FrameRectangle): LineProfiles {
  const sideways = orientationTurnsSideways(frame.orientation);
  const { x0, y0, x1, y1 } = storedRegion(frame, region);
  const stored = storedProfiles(frame, x0, y0, x1, y1);
  // whether the upright frame's x and y run against the stored axis they lie along
  const mirrorX = [2, 3, 7, 8].includes(frame.orientation);
  const mirrorY = [3, 4, 6, 7].includes(frame.orientation);
  const [alongX, alongY] = sideways ? [mirrorY, mirrorX] : [mirrorX, mirrorY];
  return {
    rows: mirrored(sideways ? stored.columns : stored.rows, alongY, alongX),
    columns: mirrored(sideways ? stored.rows : stored.columns, alongX, alongY),
  };
}

function storedProfiles(
  { samples, channels, widthPx, lightAtCode }: LinearFrame,
  x0: number,
  y0: number,
  x1: number,
  y1: number,
): LineProfiles {
  const width = x1 - x0;
  const height = y1 - y0;
  const green = channels < 3 ? 0 : 1;
  const lightOf = Float32Array.from(lightAtCode.green); // half the size: the table of 16 bits stays in the cache
  const rows = new Float32Array(STRIPS * height);
  const columns = new Float32Array(STRIPS * width);
  const columnSums = new Float64Array(width);
  let down = 0;
  let taken = 0;
  for (let y = 0; y < height; y++) {
    const first = ((y + y0) * widthPx + x0) * channels + green;
    for (let strip = 0, x = 0; strip < STRIPS; strip++) {
      const end = stripEnd(strip, width);
      rows[strip * height + y] = meanLight(samples, lightOf, first + x * channels, end - x, channels, y);
      x = end;
    }
    if (height < FEWEST_ROWS || takesPart(y)) {
      taken++;
      for (let x = 0, i = first; x < width; x++, i += channels) columnSums[x]! += lightOf[samples[i]!]!;
    }
    if (y + 1 < stripEnd(down, height)) continue;
    for (let x = 0; x < width; x++) columns[down * width + x] = columnSums[x]! / taken;
    columnSums.fill(0);
    taken = 0;
    down++;
  }
  return { rows: { lines: height, light: rows }, columns: { lines: width, light: columns } };
}

/**
 * Mean over a line's part in one strip. Of a wide strip every fourth run of pixels is enough; which of the four goes
 * by the line, irregularly, so that no weave keeps step with them.
 */
function meanLight(
  samples: LinearFrame['samples'],
  lightOf: Float32Array,
  first: number,
  count: number,
  step: number,
  line: number,
): number {
  const thinned = count >= WIDE_STRIP_PX;
  const apart = thinned ? RUNS * RUN_PX : count;
  const run = thinned ? RUN_PX : count;
  let sum = 0;
  let taken = 0;
  for (let from = thinned ? (scrambled(line) % RUNS) * RUN_PX : 0; from < count; from += apart) {
    const length = Math.min(run, count - from);
    const end = first + (from + length) * step;
    for (let i = first + from * step; i < end; i += step) sum += lightOf[samples[i]!]!;
    taken += length;
  }
  return sum / taken;
}

const WIDE_STRIP_PX = 512;
const RUN_PX = 32;
const RUNS = 4;

const scrambled = (line: number) => (Math.imul(line, 0x9e3779b1) ^ Math.imul(line >>> 3, 0x85ebca6b)) >>> 8;

/** A sixth of the rows tells a column's light well enough; picked irregularly, so that no weave keeps step with them. */
const takesPart = (y: number) => scrambled(y) % 6 === 0;
const FEWEST_ROWS = 1000;

const stripEnd = (strip: number, length: number) => Math.floor(((strip + 1) * length) / STRIPS);

function mirrored({ lines, light }: LineProfile, linesTurn: boolean, stripsTurn: boolean): LineProfile {
  const result = new Float32Array(light.length);
  for (let strip = 0; strip < STRIPS; strip++) {
    const from = (stripsTurn ? STRIPS - 1 - strip : strip) * lines;
    for (let line = 0; line < lines; line++)
      result[strip * lines + line] = light[from + (linesTurn ? lines - 1 - line : line)]!;
  }
  return { lines, light: result };
}
