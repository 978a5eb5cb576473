import type { Vector3 } from '../numeric/matrix3.ts';
import type { BayerOrder } from './bayer-order.ts';
import { blackOfChannels, type CellLevels } from './cell-levels.ts';
import type { RawMosaic } from './raw-file.ts';
import type { RawCodes } from './stored-raw.ts';

/** A mosaic taken four cells to a pixel: red, the mean of the two greens, blue. */
export interface BinnedMosaic {
  readonly widthPx: number;
  readonly heightPx: number;
  /** Interleaved red, green, blue. */
  readonly samples: Uint16Array;
  readonly codes: RawCodes;
}

/** Clipped pixels alone have it. */
const CLIPPED = 65535;
const ROWS_PER_NEWS = 64;

/**
 * Takes each 2 × 2 cells of a mosaic to one pixel, without interpolating. Cells are multiplied by a whole number, so
 * that even the mean of two greens is exact, and shifted so that black lies at one code in all channels with all the
 * noise below it kept: the mean of dark light stays right. A pixel is clipped in a channel where any of that channel's
 * cells reaches white. The last column or row of an odd number is left out.
 */
export function binBayer(
  mosaic: RawMosaic,
  order: BayerOrder,
  levels: CellLevels,
  onProgress?: (fraction: number) => void,
): BinnedMosaic {
  const { data, raw_width, left_margin, top_margin } = mosaic;
  const widthPx = mosaic.width >> 1;
  const heightPx = mosaic.height >> 1;
  const coding = codingOf(order, levels);
  const places = placesOf(order, raw_width);
  const full = (levels.full ?? levels.white).map(Math.ceil) as unknown as Vector3; // codes are whole
  const samples = new Uint16Array(widthPx * heightPx * 3);
  for (let row = 0, to = 0; row < heightPx; row++, to += 3 * widthPx) {
    const from = (2 * row + top_margin) * raw_width + left_margin;
    if (levels.beyond) binExactly(mosaic, order, levels, coding, row, samples, to);
    else binRow(data, from, places, full, coding, samples, to, to + 3 * widthPx);
    if (row % ROWS_PER_NEWS === 0) onProgress?.(row / heightPx);
  }
  onProgress?.(1);
  return { widthPx, heightPx, samples, codes: coding.codes };
}

interface Coding {
  readonly times: number;
  /** What each channel's multiplied cells are shifted down by: whole, so that nothing is rounded. */
  readonly shift: Vector3;
  readonly codes: RawCodes;
}

function codingOf(order: BayerOrder, levels: CellLevels): Coding {
  const black = blackOfChannels(levels, order);
  const { white, full } = levels;
  const most = Math.max(1, Math.floor((CLIPPED - 1) / Math.max(...white)));
  const times = most > 1 ? most - (most % 2) : 1;
  // the first whole code that is not below black, and all channels' brought down to the lowest
  const blackCodes = black.map((level) => Math.ceil(times * level - 1e-6));
  const pedestal = Math.min(...blackCodes);
  const shift = blackCodes.map((code) => code - pedestal) as unknown as Vector3;
  const codeOf = (level: number, channel: number) => times * level - shift[channel]!;
  return {
    times,
    shift,
    codes: {
      zero: black.map(codeOf) as unknown as Vector3,
      white: white.map(codeOf) as unknown as Vector3,
      clip: CLIPPED,
      ...(full && { full: full.map(codeOf) as unknown as Vector3 }),
      black: pedestal,
      blackMean: pedestal + 2 * times, // two of the sensor's own codes
    },
  };
}

/** The cell's place from the quad's corner: red, the upper green, the lower one, blue. */
function placesOf(order: BayerOrder, rawWidthPx: number): [number, number, number, number] {
  const place = (site: number) => (site >> 1) * rawWidthPx + (site & 1);
  return [order.indexOf('R'), order.indexOf('G'), order.lastIndexOf('G'), order.indexOf('B')].map(place) as [
    number,
    number,
    number,
    number,
  ];
}

/** One row in whole numbers of 32 bits, which are quick. */
function binRow(
  data: Uint16Array,
  start: number,
  [red, green, otherGreen, blue]: readonly [number, number, number, number],
  [redFull, greenFull, blueFull]: Vector3,
  { times, shift: [redShift, greenShift, blueShift] }: Coding,
  samples: Uint16Array,
  first: number,
  end: number,
): void {
  for (let to = first, from = start; to < end; to += 3, from += 2) {
    const r = data[from + red]!;
    const g = data[from + green]!;
    const h = data[from + otherGreen]!;
    const b = data[from + blue]!;
    const both = Math.imul(times, g + h);
    const half = both >> 1; // what is cut off goes to the even number, so that the mean of many is not moved
    const redCode = Math.imul(times, r) - redShift;
    const greenCode = half + (half & both & 1) - greenShift;
    const blueCode = Math.imul(times, b) - blueShift;
    samples[to] = r >= redFull ? CLIPPED : Math.max(0, redCode);
    samples[to + 1] = g >= greenFull || h >= greenFull ? CLIPPED : Math.max(0, greenCode);
    samples[to + 2] = b >= blueFull ? CLIPPED : Math.max(0, blueCode);
  }
}

/** One row where single cells have a black of their own; that may be a fraction, so codes are rounded. */
function binExactly(
  { data, raw_width, left_margin, top_margin, width }: RawMosaic,
  order: BayerOrder,
  { beyond, white, full = white }: CellLevels,
  { times, shift }: Coding,
  row: number,
  samples: Uint16Array,
  start: number,
): void {
  let to = start;
  const sums = [0, 0, 0];
  const clipped = [false, false, false];
  for (let column = 0; column < width >> 1; column++, to += 3) {
    sums.fill(0);
    clipped.fill(false);
    for (let site = 0; site < 4; site++) {
      const channel = 'RGB'.indexOf(order[site]!);
      const [x, y] = [2 * column + (site & 1), 2 * row + (site >> 1)];
      const cell = data[(y + top_margin) * raw_width + x + left_margin]!;
      if (cell >= full[channel]!) clipped[channel] = true;
      sums[channel]! += (channel === 1 ? 0.5 : 1) * (cell - beyond!(x, y));
    }
    for (let channel = 0; channel < 3; channel++) {
      const code = Math.round(times * sums[channel]! - shift[channel]!);
      samples[to + channel] = clipped[channel] ? CLIPPED : Math.max(0, Math.min(CLIPPED - 1, code));
    }
  }
}
