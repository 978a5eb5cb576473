import type { Aim } from '../aim.ts';
import { below } from '../diagnosis/verdict.ts';
import { codeStops } from '../exposure/coded-light.ts';
import { doubtEv } from '../frame/light-doubt.ts';
import type { CellGrid } from '../grid/cell-grid.ts';
import { smoothedLight } from '../maps/smoothed-light.ts';
import type { Judgement } from '../reading.ts';
import type { AimedInput } from './aimed-reading.ts';

/** What stands between a background and clean white; stops against paper white. */
export interface CleanWhite {
  readonly kind: 'clean-white';
  /** The aim it was judged by. */
  readonly aim: Extract<Aim, { kind: 'clean-white' }>;
  /** Share of the cells that are paper white as shot, 0 to 1, and what it is at the least and at the most. */
  readonly reachedShare: number;
  readonly reachedShareLeast: number;
  readonly reachedShareMost: number;
  /**
   * Stops more until the darkest point just reaches paper white; negative: less will do. `null` where a channel has no light
   * anywhere, which no exposure brings there.
   */
  readonly changeEv: number | null;
  /** `null` where even the darkest point is clipped in part. */
  readonly changePlusMinusEv: number | null;
  /** How far the hottest then lies over paper white; `null` as above. */
  readonly overEv: number | null;
  readonly overPlusMinusEv: number;
  /** Whether clipping hides part of it, so that {@link overEv} is the least that it can be. */
  readonly isOverAtLeast: boolean;
  /** Whether some cells have no light to speak of in a channel: they are left out, and the figures bounds. */
  readonly isUnlitInPart: boolean;
  /** Whether it then stays below the most that is asked for. */
  readonly verdict: Judgement;
}

/**
 * Judges a frame, exposed to be measured, by what becomes of it once its darkest point is brought to paper white in every
 * channel: the hottest then lies over it by so much, which is what spills onto the subject's edges. (A frame that is white
 * all over is refused before: it tells nothing.)
 */
export function cleanWhite(
  aim: Extract<Aim, { kind: 'clean-white' }>,
  { measurement: { falloff }, grid, level, evidence: { asRead, doubt } }: AimedInput,
): CleanWhite {
  const clips = Math.min(...(grid.clipLight ?? [1]));
  // light of paper white, alike in all channels: a raw file's clip where the first of its channels does
  const white = aim.whiteCode === null ? clips : clips * 2 ** codeStops(grid, aim.whiteCode);
  // of one cell at white, which may clip itself or not: what clips elsewhere takes nothing from it
  const plusMinusEv = Math.hypot(asRead.falloff.cellPlusMinusEv, doubtEv(doubt, 1, white / clips));
  const shares = reachedShares(grid, white, aim.whiteCode === null, plusMinusEv);
  const { red, green, blue } = smoothedLight(grid);
  const { toXyz } = grid;
  let [darkest, hottest, isUnlitInPart] = [Number.POSITIVE_INFINITY, 0, false];
  for (let i = 0; i < red.length; i++) {
    const least = Math.min(red[i]!, green[i]!, blue[i]!);
    if (least <= 0)
      isUnlitInPart = true; // a saturated light, or a dark corner that the smoothing's plane goes below
    else if (least < darkest) darkest = least; // NaN compares false
    const y = toXyz[3] * red[i]! + toXyz[4] * green[i]! + toXyz[5] * blue[i]!;
    if (y > hottest) hottest = y;
  }
  const isOverAtLeast = falloff.isLowerBound;
  const isLit = darkest < Number.POSITIVE_INFINITY;
  const overEv = isLit ? Math.log2(hottest / darkest) : null;
  const judged = overEv === null ? 'too-close-to-say' : below(overEv, falloff.plusMinusEv, aim.mostOverEv);
  return {
    kind: 'clean-white',
    aim,
    ...shares,
    changeEv: isLit ? Math.log2(white / darkest) : null,
    changePlusMinusEv: isLit ? level.darkestPlusMinusEv : null,
    overEv,
    overPlusMinusEv: falloff.plusMinusEv,
    isOverAtLeast,
    isUnlitInPart,
    verdict: (isOverAtLeast || isUnlitInPart) && judged === 'yes' ? 'too-close-to-say' : judged,
  };
}

/**
 * Noise about white is cut off at it: of what is cut in the middle the mean lies so many of its own deviations below
 * (0.399 σ of a normal distribution, whose half has a deviation of 0.584 σ).
 */
const CUT_BELOW = 0.399 / 0.584;
/** From this share of clipped pixels on, it is cut. */
const CUT_SHARE = 0.25;

/** The share of cells whose every channel is at paper white; least and most by so many stops either way. */
function reachedShares(
  { light, scatter, highlightShare, lightAtCode }: CellGrid,
  white: number,
  isClip: boolean,
  plusMinusEv: number,
): Pick<CleanWhite, 'reachedShare' | 'reachedShareLeast' | 'reachedShareMost'> {
  const channels = ['red', 'green', 'blue'] as const;
  // rounding between colour models lets clipped white come back a code lower
  const { green } = lightAtCode;
  const codeEv = green.length === 256 ? Math.log2(green[255]! / green[254]!) : 0.001;
  let [cells, reached, least, most] = [0, 0, 0, 0];
  for (let i = 0; i < highlightShare.length; i++) {
    if (Number.isNaN(light.green[i]!)) continue;
    cells++;
    const share = isClip ? highlightShare[i]! : 0;
    const level = (channel: (typeof channels)[number]) =>
      light[channel][i]! + (share > CUT_SHARE ? CUT_BELOW * scatter[channel][i]! : 0);
    const over = Math.log2(Math.min(...channels.map(level)) / white) + (share >= 0.5 ? codeEv : 0);
    if (over >= 0) reached++;
    if (over >= plusMinusEv || (over >= 0 && share > 0.9)) least++; // what is clipped may lie as high as it likes
    if (over >= -plusMinusEv) most++;
  }
  return { reachedShare: reached / cells, reachedShareLeast: least / cells, reachedShareMost: most / cells };
}
