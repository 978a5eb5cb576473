import type { CellGrid } from './cell-grid.ts';
import { levelStops } from './cells-light.ts';

/**
 * One sentence on what changed between averaged frames: the range of their levels, and what of the falloff's ± that makes
 * (`flickerEv`, 0 where nothing shows beyond noise); empty for a single frame.
 */
export function flickerSays(grids: readonly CellGrid[], flickerEv: number): string {
  if (grids.length < 2) return '';
  const levels = grids.map(levelStops);
  const rangeEv = Math.max(...levels) - Math.min(...levels);
  const level =
    rangeEv < 0.005 ? 'their level did not change' : `their level changed by ${rangeEv.toFixed(2)} stop`;
  const shape =
    flickerEv > 0
      ? `the light fell differently from one to the next; that flicker puts ${flickerEv.toFixed(3)} stop into the ±`
      : 'the light fell alike, but for noise';
  return `${grids.length} frames are averaged: ${level}, and ${shape}.`;
}
