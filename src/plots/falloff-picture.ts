import type { CellMap } from './cell-map.ts';
import { lightnessToGrey } from './lightness-to-grey.ts';

/** A picture of one pixel a cell, RGBA, and how much stronger than life it is. */
export interface MapPicture {
  readonly columns: number;
  readonly rows: number;
  readonly rgba: Uint8ClampedArray<ArrayBuffer>;
  readonly strengthened: number;
}

/** L* of the brightest cell, and the darkest that a label in L* 8 still stands out from by 4.5 to 1 (WCAG 2.2, 1.4.3). */
const BRIGHTEST_LIGHTNESS = 96;
const DARKEST_LIGHTNESS = 55;
/** What half the light is in L* near the top of the scale: 100 to 76 (ISO/CIE 11664-4). */
const LIGHTNESS_PER_STOP = 24;
const STRENGTHS = [8, 4, 2, 1, 0.75, 0.5, 0.25, 0.125];

/**
 * A falloff map (stops, 0 the brightest) in greys of equal steps in L*: so many a stop everywhere. Small falls are
 * strengthened and great ones weakened, by a factor that is to be stated; a fall far below `worthSeeingEv` (the
 * tolerance) stays faint. NaN cells are transparent.
 */
export function falloffPicture({ columns, rows, values }: CellMap, worthSeeingEv = 0): MapPicture {
  const deepest = values.reduce((most, ev) => (Number.isNaN(ev) ? most : Math.max(most, -ev)), worthSeeingEv);
  const room = BRIGHTEST_LIGHTNESS - DARKEST_LIGHTNESS;
  const strengthened =
    STRENGTHS.find((factor) => deepest * LIGHTNESS_PER_STOP * factor <= room) ??
    room / (deepest * LIGHTNESS_PER_STOP);
  const rgba = new Uint8ClampedArray(columns * rows * 4);
  values.forEach((ev, i) => {
    if (Number.isNaN(ev)) return;
    const grey = lightnessToGrey(BRIGHTEST_LIGHTNESS + ev * LIGHTNESS_PER_STOP * strengthened);
    rgba.set([grey, grey, grey, 255], i * 4);
  });
  return { columns, rows, rgba, strengthened };
}
