import { leftOverEv } from '../engine/profile/left-over.ts';
import type { FrameReport } from '../engine/read-frame.ts';
import type { MapPicture } from './falloff-picture.ts';
import { lightnessToGrey } from './lightness-to-grey.ts';

/** What the chosen surface leaves over, cell by cell, as a picture in greys about the middle one. */
export interface LeftOverPicture extends MapPicture {
  /** Stops at the lightest and the darkest grey. */
  readonly reachEv: number;
  /** Stops that 95 of 100 cells stay under, and the most. */
  readonly usualEv: number;
  readonly mostEv: number;
}

/** L* of nothing left over, and how far the most goes from it. */
const MIDDLE_LIGHTNESS = 62;
const MOST_LIGHTNESS = 34;
/** Scales of the picture, so that those of two frames can be compared at a glance. */
const REACHES = [0.02, 0.05, 0.1, 0.2, 0.5, 1];

/** Lighter: measured above the surface; darker: below it. Cells without a measurement are transparent. */
export function leftOverPicture({ grid, chosen }: Pick<FrameReport, 'grid' | 'chosen'>): LeftOverPicture {
  const left = leftOverEv(grid, chosen);
  const sizes = Array.from(
    left.filter((ev) => !Number.isNaN(ev)),
    Math.abs,
  ).sort((a, b) => a - b);
  const usualEv = sizes[Math.floor(0.95 * (sizes.length - 1))] ?? 0;
  const mostEv = sizes.at(-1) ?? 0;
  const reachEv = REACHES.find((ev) => ev >= usualEv) ?? 1;
  const rgba = new Uint8ClampedArray(left.length * 4);
  left.forEach((ev, at) => {
    if (Number.isNaN(ev)) return;
    const share = Math.min(Math.max(ev / reachEv, -1), 1);
    const grey = lightnessToGrey(MIDDLE_LIGHTNESS + share * MOST_LIGHTNESS);
    rgba.set([grey, grey, grey, 255], at * 4);
  });
  return { columns: grid.columns, rows: grid.rows, rgba, strengthened: 1, reachEv, usualEv, mostEv };
}
