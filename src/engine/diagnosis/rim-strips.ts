import { quantile } from '../numeric/quantile.ts';
import type { FrameRectangle } from '../reading.ts';
import type { WholeLight } from './whole-light.ts';

export type FrameSide = 'left' | 'right' | 'top' | 'bottom';

/** A strip along one whole side of the frame, darker than what was read beside it. */
export interface RimStrip {
  readonly side: FrameSide;
  /** To where it is half as dark as at the frame's border, as a share of the frame's width (left, right) or height. */
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
/** Noise of single cells makes no darkest place of a rim. */
const ALONG_CELLS = 5;

/** The strips that a region leaves out along whole sides of the frame and that are darker than the region there. */
export function rimStrips(whole: WholeLight, region: FrameRectangle): RimStrip[] {
  return SIDES.map((side) => stripAt(side, whole, region)).filter((strip) => strip !== null);
}

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
  const level = (line: number, inward: number) => {
    const across = fromFarEnd ? inwardCells - 1 - inward : inward;
    return Math.log2(luminance[upright ? line * columns + across : across * columns + line]!);
  };
  const darker: number[] = [];
  const reaches: number[] = [];
  for (let line = 0; line < lines; line++) {
    // beyond the region's own span there may be another strip: its nearest line tells the light beside
    const inside = Math.min(Math.round(to) - 1, Math.max(Math.round(from), line));
    const beside = quantile(
      Array.from({ length: BESIDE_CELLS }, (_, k) => level(inside, outside + k)),
      0.5,
    );
    const loss = (inward: number) => beside - level(line, inward);
    const atBorder = loss(0);
    if (Number.isNaN(atBorder)) continue;
    darker.push(atBorder);
    reaches.push(halfwayTo(loss, atBorder, outside));
  }
  const leastEv = quantile(darker, EXCEPTED_SHARE);
  if (!(leastEv > LEAST_DARKER_EV)) return null;
  const border = Array.from({ length: lines }, (_, line) => level(line, 0));
  return { side, reach: quantile(reaches, 0.5) / inwardCells, leastEv, darkest: 2 ** leastAlong(border) };
}

/** Cells from the border to where half of its loss is left, between the centres of two cells. */
function halfwayTo(loss: (inward: number) => number, atBorder: number, outside: number): number {
  const half = atBorder / 2;
  for (let inward = 1; inward <= outside; inward++) {
    const [before, here] = [loss(inward - 1), loss(inward)];
    if (here < half) return inward - 0.5 + (before - half) / (before - here);
  }
  return outside;
}

function leastAlong(levels: readonly number[]): number {
  let least = Number.POSITIVE_INFINITY;
  for (let first = 0; first + ALONG_CELLS <= levels.length; first++) {
    const middle = quantile(levels.slice(first, first + ALONG_CELLS), 0.5);
    if (middle < least) least = middle; // NaN compares false
  }
  return least;
}
