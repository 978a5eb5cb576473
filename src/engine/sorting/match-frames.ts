import { quantile } from '../numeric/quantile.ts';
import type { FrameGlance } from './frame-glance.ts';

/** How alike two frames are, cell by cell, after one common change of level. */
export interface FrameMatch {
  /** Share of cells that show the same light, 0 to 1. */
  readonly share: number;
  /** Common change of level from the first to the second, in stops. */
  readonly offsetEv: number;
  /** 1 where a cell differs, row-major. */
  readonly differs: Uint8Array;
}

/** Cells within this of one another show the same light; own choice, well over the noise of a preview's cell. */
const SAME_EV = 0.12;
const SAME_COLOUR_EV = 0.15;
/** Steps of a search for the change of level that most cells share. */
const STEP_EV = 0.04;

/**
 * Holds two frames against each other. Where the exposure of both is known, the level has to follow it within
 * `looseEv`; where it is not, it is free within that.
 */
export function matchFrames(first: FrameGlance, second: FrameGlance, looseEv: number): FrameMatch {
  const { stops, redOverBlueEv } = first;
  const differs = new Uint8Array(stops.length).fill(1);
  if (first.columns !== second.columns || first.rows !== second.rows)
    return { share: 0, offsetEv: Number.NaN, differs };
  const expectedEv = exposureChangeEv(first, second) ?? 0;
  const change = stops.map((ev, cell) => second.stops[cell]! - ev);
  const offsetEv = commonChange(change, expectedEv, looseEv);
  const colour = redOverBlueEv.map((ev, cell) => second.redOverBlueEv[cell]! - ev);
  const colourOffset = quantile(colour, 0.5);
  // a white balance set anew shifts all alike, but never by so much as another light does
  const colourEv = Math.abs(colourOffset) < SAME_COLOUR_EV ? colourOffset : 0;
  let same = 0;
  for (let cell = 0; cell < stops.length; cell++) {
    if (Math.abs(change[cell]! - offsetEv) > SAME_EV) continue;
    if (Math.abs(colour[cell]! - colourEv) > SAME_COLOUR_EV) continue;
    differs[cell] = 0;
    same++;
  }
  return { share: same / stops.length, offsetEv, differs };
}

/** Stops by which the second was exposed more by its settings; `null` where either does not say. */
export function exposureChangeEv(first: FrameGlance, second: FrameGlance): number | null {
  const [before, after] = [exposedEv(first), exposedEv(second)];
  return before === null || after === null ? null : after - before;
}

/** log2 of time × sensitivity ÷ aperture², the light that the settings make of a scene's. */
export function exposedEv({ exposure }: FrameGlance): number | null {
  if (exposure === null) return null;
  const { seconds, fNumber, iso } = exposure;
  if (!seconds || !fNumber || !iso) return null;
  return Math.log2((seconds * iso) / (fNumber * fNumber));
}

/** The change that most cells lie close to. */
function commonChange(change: Float64Array, aboutEv: number, looseEv: number): number {
  const sorted = change.toSorted();
  let best = aboutEv;
  let most = -1;
  let low = 0;
  let high = 0;
  for (let ev = aboutEv - looseEv; ev <= aboutEv + looseEv + 1e-9; ev += STEP_EV) {
    while (low < sorted.length && sorted[low]! < ev - SAME_EV) low++;
    while (high < sorted.length && sorted[high]! <= ev + SAME_EV) high++;
    if (high - low <= most) continue;
    most = high - low;
    best = ev;
  }
  return best;
}
