import { orientationTurnsSideways } from '../../grid/upright-rectangle.ts';
import type { FramePoint } from '../../reading.ts';
import { stored } from './light-planes.ts';

/** A stroke over the upright frame that says what is background and what is not. */
export interface Stroke {
  readonly makes: 'background' | 'subject';
  readonly points: readonly FramePoint[];
  /** As a share of the upright frame's width. */
  readonly radius: number;
}

/** Oldest first: a later stroke lies over an earlier one. */
export type Brush = readonly Stroke[];

/** Outer share of a stroke over which it fades. */
const SOFT_SHARE = 0.2;

/**
 * What strokes say, over cells of the frame as stored: 1 background, −1 subject, between them as far as a stroke's
 * soft edge says so, 0 nothing.
 */
export function brushed(brush: Brush, columns: number, rows: number, orientation: number): Float32Array {
  const said = new Float32Array(columns * rows);
  const uprightColumns = orientationTurnsSideways(orientation) ? rows : columns;
  for (const { makes, points, radius } of brush) {
    const cells = radius * uprightColumns;
    const placed = points.map(({ x, y }) => {
      const [across, down] = stored(x, y, orientation);
      return { x: across * columns, y: down * rows };
    });
    const sign = makes === 'background' ? 1 : -1;
    placed.forEach((to, i) => {
      paint(said, columns, rows, placed[Math.max(0, i - 1)]!, to, cells, sign);
    });
  }
  return said;
}

interface Place {
  readonly x: number;
  readonly y: number;
}

function paint(
  said: Float32Array,
  columns: number,
  rows: number,
  from: Place,
  to: Place,
  radius: number,
  sign: 1 | -1,
): void {
  const [dx, dy] = [to.x - from.x, to.y - from.y];
  const square = dx * dx + dy * dy;
  const top = Math.max(0, Math.floor(Math.min(from.y, to.y) - radius));
  const bottom = Math.min(rows, Math.ceil(Math.max(from.y, to.y) + radius));
  const left = Math.max(0, Math.floor(Math.min(from.x, to.x) - radius));
  const right = Math.min(columns, Math.ceil(Math.max(from.x, to.x) + radius));
  for (let row = top; row < bottom; row++) {
    for (let column = left; column < right; column++) {
      const [x, y] = [column + 0.5 - from.x, row + 0.5 - from.y];
      const along = square > 0 ? Math.min(Math.max((x * dx + y * dy) / square, 0), 1) : 0;
      const away = Math.hypot(x - along * dx, y - along * dy) / radius;
      const strength = Math.min(1, Math.max(0, (1 - away) / SOFT_SHARE));
      if (strength === 0) continue;
      const at = row * columns + column;
      said[at] = said[at]! * (1 - strength) + sign * strength;
    }
  }
}
