import type { CodingSteps } from './coding-steps.ts';
import type { LightRatios } from './light-ratios.ts';
import { boxMean, planeSums, sumOver } from './plane-sums.ts';
import { LEAST_STEP_EV, markSteps } from './step-map.ts';

/** Stops about the foretold light within which empty background lies, and by which shadows may darken it. */
const EMPTY_EV = 0.025;
const DEEPEST_SHADOW_EV = 3;
/** Light that a subject throws onto the background. */
const BRIGHTEST_GLOW_EV = 0.15;
/** A shadow keeps the colour of the light; what other light fills it changes it this far. */
const SAME_COLOUR_EV = 0.08;
/** Background spreads through passages wider than twice this, so that no gap in an outline lets it in. */
const PASSAGE_REACH = 2;
/** A part of the background that touches no other has this share of empty cells, and at least so many. */
const EMPTY_SHARE = 0.6;
const LEAST_CELLS = 64;
/** Means over squares of this reach steady what single cells are judged by. */
const STEADIED = 2;

/**
 * Marks (1) what is background: cells with the light that the blank foretells, and all that can be reached from them
 * without crossing a step, as long as it is as bright or darker and of the same colour. So a soft shadow belongs to
 * the background, and what an outline encloses does not.
 */
export function growBackground(ratios: LightRatios, steps: CodingSteps): Uint8Array {
  const { columns, rows } = ratios;
  const level = boxMean(ratios.level, columns, rows, STEADIED);
  const redGreen = boxMean(ratios.redGreen, columns, rows, STEADIED);
  const blueGreen = boxMean(ratios.blueGreen, columns, rows, STEADIED);
  const hasItsColour = (at: number) =>
    Math.abs(redGreen[at]!) < SAME_COLOUR_EV && Math.abs(blueGreen[at]!) < SAME_COLOUR_EV;
  const isEmpty = (at: number) => Math.abs(level[at]!) < EMPTY_EV && hasItsColour(at);
  const blocked = new Uint8Array(columns * rows);
  markSteps(ratios.level, columns, rows, isEmpty, Math.max(LEAST_STEP_EV, steps.levelEv), blocked);
  for (const plane of [ratios.redGreen, ratios.blueGreen])
    markSteps(plane, columns, rows, isEmpty, Math.max(LEAST_STEP_EV, steps.colourEv), blocked);
  const empty = new Uint8Array(columns * rows);
  for (let at = 0; at < blocked.length; at++) {
    if (blocked[at]) continue;
    if (level[at]! < -DEEPEST_SHADOW_EV || level[at]! > BRIGHTEST_GLOW_EV || !hasItsColour(at))
      blocked[at] = 1;
    else if (isEmpty(at)) empty[at] = 1;
  }
  return parts(wideOnly(blocked, columns, rows), empty, blocked, columns, rows);
}

/** 1 where no blocked cell lies within {@link PASSAGE_REACH}. */
function wideOnly(blocked: Uint8Array, columns: number, rows: number): Uint8Array {
  const sums = planeSums(blocked, columns, rows);
  const wide = new Uint8Array(columns * rows);
  const reach = PASSAGE_REACH;
  for (let y = 0, at = 0; y < rows; y++) {
    const [y0, y1] = [Math.max(0, y - reach), Math.min(rows, y + reach + 1)];
    for (let x = 0; x < columns; x++, at++) {
      if (sumOver(sums, Math.max(0, x - reach), y0, Math.min(columns, x + reach + 1), y1) === 0) wide[at] = 1;
    }
  }
  return wide;
}

/** The connected wide parts that are empty enough, widened again by what was taken from them. */
function parts(
  wide: Uint8Array,
  empty: Uint8Array,
  blocked: Uint8Array,
  columns: number,
  rows: number,
): Uint8Array {
  const seen = new Uint8Array(columns * rows);
  const kept = new Uint8Array(columns * rows);
  const stack = new Int32Array(columns * rows);
  for (let start = 0; start < wide.length; start++) {
    if (!wide[start] || seen[start]) continue;
    let found = 0; // cells of this part stand in the stack's beginning, those to visit behind
    let end = 1;
    let emptyCells = 0;
    stack[0] = start;
    seen[start] = 1;
    while (found < end) {
      const at = stack[found++]!;
      emptyCells += empty[at]!;
      const x = at % columns;
      for (const next of [
        x > 0 ? at - 1 : -1,
        x < columns - 1 ? at + 1 : -1,
        at - columns,
        at + columns < wide.length ? at + columns : -1,
      ]) {
        if (next < 0 || !wide[next] || seen[next]) continue;
        seen[next] = 1;
        stack[end++] = next;
      }
    }
    if (end >= LEAST_CELLS && emptyCells >= EMPTY_SHARE * end)
      for (let i = 0; i < end; i++) kept[stack[i]!] = 1;
  }
  const sums = planeSums(kept, columns, rows);
  const reach = PASSAGE_REACH;
  const grown = new Uint8Array(columns * rows);
  for (let y = 0, at = 0; y < rows; y++) {
    const [y0, y1] = [Math.max(0, y - reach), Math.min(rows, y + reach + 1)];
    for (let x = 0; x < columns; x++, at++) {
      if (blocked[at]) continue;
      if (sumOver(sums, Math.max(0, x - reach), y0, Math.min(columns, x + reach + 1), y1) > 0) grown[at] = 1;
    }
  }
  return grown;
}
