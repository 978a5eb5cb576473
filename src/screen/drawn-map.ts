import type { Reading } from '../engine/reading.ts';
import type { Tolerance } from '../engine/tolerance.ts';
import type { MapLayout } from '../plots/map-layout.ts';
import type { MapPlot } from '../plots/map-plot.ts';
import type { MapMode } from './words/map-words.ts';

/** A finished drawing, with all that it was made from. */
export interface DrawnMap {
  readonly plot: MapPlot;
  readonly layout: MapLayout;
  readonly mode: MapMode;
  readonly reading: Reading;
  readonly tolerance: Tolerance;
}
