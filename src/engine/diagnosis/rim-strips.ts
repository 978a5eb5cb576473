import { quantile } from '../numeric/quantile.ts';
import type { FrameRectangle } from '../reading.ts';
import type { WholeLight } from './whole-light.ts';

export type FrameSide = 'left' | 'right' | 'top' | 'bottom';

/** A strip along one whole side of the frame, darker than what was read beside it. */
export interface RimStrip {
  readonly side: FrameSide;
  /** To where half of the light that the border lacks is back, as a share of the frame's width (left, right) or height. */
  readonly reach: number;
  /** How much darker its border is than the light beside, in stops; nine of ten places along it are darker by more. */
  readonly leastEv: number;
  /** The least luminance along its border, over {@link ALONG_CELLS} cells. */
  readonly darkest: number;
}

const SIDES: readonly FrameSide[] = ['left', 'right', 'top', 'bottom'];
/** A strip that is darker by less may be the light's own fall. */
export const LEAST_DARKER_EV = 0.2;
/** A wider strip is no rim: the sheet fills part of the frame. */
const WIDEST_SHARE = 1 / 4;
/** Of the places along a side, this share may be less dark: a corner that is lit, a clamp. */
const EXCEPTED_SHARE = 0.1;
/** The light beside the strip is the middle one of so many cells inside the region. */
const BESIDE_CELLS = 3;
/** So many stops below the brightest cell a strip is black beside it: how black, the lowest codes do not tell. */
const BLACK_EV = 8;
/** Noise of single cells makes no darkest place of a rim. */
const ALONG_CELLS = 5;

/** The strips that a region leaves out along whole sides of the frame and that are darker than the region there. */
export function rimStrips(whole: WholeLight, region: FrameRectangle): RimStrip[] {
  let brightest = 0;
  for (const light of whole.luminance) if (light > brightest) brightest = light; // NaN compares false
  const black = brightest / 2 ** BLACK_EV;
  const luminance = whole.luminance.map((light) => (Number.isNaN(light) ? black : Math.max(black, light)));
  return SIDES.map((side) => stripAt(side, { ...whole, luminance }, region)).filter(
    (strip) => strip !== null,
  );
}

/** In a whole light without a cell that is NaN or 0. */
function stripAt(side: FrameSide, { columns, rows, luminance }: WholeLight, region: FrameRectangle) {
  const upright = side === 'left' || side === 'right';
  const [inwardCells, lines] = upright ? [columns, rows] : [rows, columns];
  const outside = Math.round(
    { ...region, right: 1 - region.right, bottom: 1 - region.bottom }[side] * inwardCells,
  );
  if (outside === 0 || outside > WIDEST_SHARE * inwardCells) return null;
  const [from, to] = upright
    ? [region.top * rows, region.bottom * rows]
    : [region.left * columns, region.right * columns];
  const fromFarEnd = side === 'right' || side === 'bottom';
  const light = (line: number, inward: number) => {
    const across = fromFarEnd ? inwardCells - 1 - inward : inward;
    return luminance[upright ? line * columns + across : across * columns + line]!;
  };
  const darker: number[] = [];
  const reaches: number[] = [];
  for (let line = 0; line < lines; line++) {
    // beyond the region's own span there may be another strip: its nearest line tells the light beside
    const inside = Math.min(Math.round(to) - 1, Math.max(Math.round(from), line));
    const beside = quantile(
      Array.from({ length: BESIDE_CELLS }, (_, k) => light(inside, outside + k)),
      0.5,
    );
    darker.push(Math.log2(beside / light(line, 0)));
    reaches.push(reachOf((inward) => beside - light(line, inward), outside));
  }
  const leastEv = quantile(darker, EXCEPTED_SHARE);
  if (!(leastEv > LEAST_DARKER_EV)) return null;
  const border = Array.from({ length: lines }, (_, line) => light(line, 0));
  return { side, reach: quantile(reaches, 0.5) / inwardCells, leastEv, darkest: leastAlong(border) };
}

/** Cells from the border to where half of what it lacks is lacking, between the centres of two cells. */
function reachOf(lack: (inward: number) => number, outside: number): number {
  const half = lack(0) / 2;
  for (let inward = 1; inward <= outside; inward++) {
    const [before, here] = [lack(inward - 1), lack(inward)];
    if (here < half) return inward - 0.5 + (before - half) / (before - here);
  }
  return outside;
}

function leastAlong(light: readonly number[]): number {
  let least = Number.POSITIVE_INFINITY;
  for (let first = 0; first + ALONG_CELLS <= light.length; first++) {
    const middle = quantile(light.slice(first, first + ALONG_CELLS), 0.5);
    least = Math.min(least, middle);
  }
  return least;
}
