import { EngineError } from '../../engine-error.ts';
import type { LinearFrame } from '../../frame/linear-frame.ts';
import { orientationTurnsSideways } from '../../grid/upright-rectangle.ts';
import type { Vector3 } from '../../numeric/matrix3.ts';
import type { ShareOfBackground } from '../share-of-background.ts';
import { type Brush, brushed } from './brush.ts';
import { codingSteps } from './coding-steps.ts';
import { exposureRatio } from './exposure-ratio.ts';
import { fillIslands } from './fill-islands.ts';
import { growBackground } from './grow-background.ts';
import { type LightPlanes, lightPlanes, turnedPlanes } from './light-planes.ts';
import { lightRatios } from './light-ratios.ts';
import { findOutline } from './outline.ts';
import { registerBlank, type Shift, shiftedPlanes } from './register-blank.ts';
import { shareByOutline } from './share-by-outline.ts';

/** Where a frame shows the background that its blank shows, over cells of the frame as stored. */
export interface FoundMatte {
  readonly columns: number;
  readonly rows: number;
  /** 1 background, 0 subject; what the brush says is in it. */
  readonly background: Uint8Array;
  readonly pxPerCell: number;
  /** Stops by which the frame's background has more light than the blank, per channel. */
  readonly exposureEv: Vector3;
  /** In pixels of the frame as stored; `null` where the background has no detail to tell it by. */
  readonly shiftPx: Shift | null;
}

export interface Matte extends FoundMatte {
  readonly share: ShareOfBackground;
  /** The frame's own linear light, averaged over cells. */
  readonly cells: LightPlanes['light'];
}

/** Longest side of the cells that a matte is found in; outlines then follow the pixels themselves. */
const LONGEST = 1600;
/** Light from which a cell may hold clipped pixels. */
const WHITE = 0.98;

/**
 * Tells the background from what stands before it by the blank frame.
 *
 * @throws {@link EngineError} `no-light` where frame and blank have no light in common.
 */
export function findMatte(frame: LinearFrame, blank: LinearFrame, brush: Brush = []): Matte {
  const { widthPx, heightPx, orientation } = frame;
  const pxPerCell = Math.max(1, Math.ceil(Math.max(widthPx, heightPx) / LONGEST));
  const columns = Math.max(2, Math.round(widthPx / pxPerCell));
  const rows = Math.max(2, Math.round(heightPx / pxPerCell));
  const own = lightPlanes(frame, columns, rows);
  const isTurned = orientationTurnsSideways(orientation) !== orientationTurnsSideways(blank.orientation);
  const its = turnedPlanes(
    isTurned ? lightPlanes(blank, rows, columns) : lightPlanes(blank, columns, rows),
    blank.orientation,
    orientation,
  );
  const shift = registerBlank(own, its);
  const placed = shift ? shiftedPlanes(its, shift) : its;
  const exposureEv = exposureRatio(own, placed, WHITE);
  if (exposureEv === null)
    throw new EngineError(
      'no-light',
      'The frame or its blank is black, so the background cannot be told from the subject. Choose the blank frame that was shot with this one, or correct everything.',
    );
  const ratios = lightRatios(own, placed, exposureEv);
  const background = growBackground(ratios, codingSteps(frame, ratios));
  fillIslands(background, ratios.level, columns);
  const outline = findOutline(own, ratios, background);
  const said = brush.length > 0 ? brushed(brush, columns, rows, orientation) : null;
  return {
    columns,
    rows,
    background: background.map((_, at) => {
      const stroke = said?.[at] ?? 0;
      return stroke === 0 ? (outline.depth[at]! < 0 ? 1 : 0) : stroke > 0 ? 1 : 0;
    }),
    share: shareByOutline(frame, outline, said),
    cells: own.light,
    pxPerCell: widthPx / columns,
    exposureEv,
    shiftPx: shift && { right: (shift.right * widthPx) / columns, down: (shift.down * heightPx) / rows },
  };
}
