import { clippedOvershoot } from '../diagnosis/clipped-overshoot.ts';
import { CLIPPED_CELL_SHARE } from '../fits/measure-cells.ts';
import { doubtEv, type LightDoubt } from '../frame/light-doubt.ts';
import type { CellGrid } from '../grid/cell-grid.ts';
import { firstToClip } from '../maps/channel-headroom.ts';
import { smoothedLight } from '../maps/smoothed-light.ts';
import type { Measurement } from '../reading.ts';

/**
 * How much light the background has, in stops against the level at which the file clips: log2 of luminance, 0 where white
 * clips, negative below. Of smoothed cells, as the falloff is. `null` is what clipping hides; each ± is the half-width of a
 * 95 % interval.
 */
export interface BackgroundLevel {
  readonly meanEv: number | null;
  readonly meanPlusMinusEv: number | null;
  readonly brightestEv: number | null;
  readonly brightestPlusMinusEv: number | null;
  readonly darkestEv: number | null;
  readonly darkestPlusMinusEv: number | null;
  /** What the mean has at the least; the mean itself where nothing is clipped. */
  readonly meanAtLeastEv: number;
  /** The channel that clips first when more light comes, and its hottest cell against its own clip level. */
  readonly firstChannel: 'red' | 'green' | 'blue';
  readonly firstEv: number | null;
  /** How far the hottest part lies above clipping, drawn on from what is seen beside it; an estimate. `null`: unclipped. */
  readonly overEv: number | null;
  /** Share of the pixels that clip in any channel, 0 to 1. */
  readonly clippedShare: number;
  /** Whether a stop here is a stop of light only if no tone curve was laid on beyond the file's own coding. */
  readonly isAssumed: boolean;
}

/** What a level is read from beside the cells. */
export interface LevelEvidence {
  /** By noise, rounding and flicker alone. */
  readonly asRead: Measurement;
  readonly doubt: LightDoubt;
}

/** Whether clipping hides how bright the hottest part is, beyond specks and hot pixels. */
export function hidesLevel({ highlightShare }: CellGrid): boolean {
  return highlightShare.some((share) => share > CLIPPED_CELL_SHARE);
}

export function backgroundLevel(grid: CellGrid, { asRead, doubt }: LevelEvidence): BackgroundLevel {
  const { toXyz, highlightShare } = grid;
  const smoothed = smoothedLight(grid);
  const clips = Math.min(...(grid.clipLight ?? [1])); // from here on white is no longer white
  let [sum, cells, brightest, darkest, darkestCell] = [0, 0, 0, Number.POSITIVE_INFINITY, -1];
  for (let i = 0; i < highlightShare.length; i++) {
    const y =
      (toXyz[3] * smoothed.red[i]! + toXyz[4] * smoothed.green[i]! + toXyz[5] * smoothed.blue[i]!) / clips;
    if (!(y > 0)) continue;
    sum += y;
    cells++;
    brightest = Math.max(brightest, y);
    if (y >= darkest) continue;
    darkest = y;
    darkestCell = i;
  }
  const isClipped = hidesLevel(grid);
  const figure = (level: number, isKnown: boolean) =>
    isKnown
      ? ([
          Math.log2(level),
          Math.hypot(asRead.falloff.cellPlusMinusEv, doubtEv(doubt, 1, Math.min(level, 1))),
        ] as const)
      : ([null, null] as const);
  const [meanEv, meanPlusMinusEv] = figure(sum / cells, !isClipped);
  const [brightestEv, brightestPlusMinusEv] = figure(brightest, !isClipped);
  const isDarkestSeen = !((highlightShare[darkestCell] ?? 1) > CLIPPED_CELL_SHARE);
  const [darkestEv, darkestPlusMinusEv] = figure(darkest, isDarkestSeen);
  const first = firstToClip(smoothed, grid);
  return {
    ...{ meanEv, meanPlusMinusEv, brightestEv, brightestPlusMinusEv, darkestEv, darkestPlusMinusEv },
    meanAtLeastEv: Math.log2(sum / cells),
    firstChannel: first.channel,
    firstEv: isClipped ? null : first.ev,
    overEv: isClipped ? clippedOvershoot(grid) : null,
    clippedShare: asRead.clipping.highlightShare,
    isAssumed: doubt.toneCurve !== 'none',
  };
}
