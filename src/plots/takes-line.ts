import { ticks as roundValues } from 'd3-array';
import type { Move } from '../engine/moves/move.ts';
import type { Reading } from '../engine/reading.ts';
import type { Tolerance } from '../engine/tolerance.ts';
import { judgedFigure, judgedLimit } from './judged-figure.ts';
import { linePath } from './line-path.ts';
import { linearScale } from './linear-scale.ts';
import type { PlotPoint } from './plot-line.ts';

/** What the line needs of a take. */
export interface TakeOnLine {
  readonly reading: Reading;
  /** `null` where it begins a new set-up. */
  readonly done: readonly Move[] | null;
  /** What the take before foretold for it when it was shot; `null` where it begins a new set-up. */
  readonly foretold: Pick<Reading, 'predicted'> | null;
}

/** One figure with its ± as a bar; the bar is cut where it would fall below 0. */
export interface TakeMark {
  readonly at: PlotPoint;
  readonly barPath: string;
  /** Where the bar ends at its top: above it there is room for a figure. */
  readonly top: number;
}

/** Takes from left to right, their figures up from 0 at the foot. */
export interface TakesLine {
  readonly width: number;
  readonly height: number;
  readonly left: number;
  readonly right: number;
  readonly foot: number;
  /** Where the tolerance ends; its band reaches from here to the foot. */
  readonly limitAt: number;
  /** Broken where a new set-up begins. */
  readonly path: string;
  readonly marks: readonly TakeMark[];
  /** What the take before foretold for each take and for the one to come; `null` where it foretold nothing. */
  readonly predictions: readonly (TakeMark | null)[];
  readonly ticks: readonly { readonly value: number; readonly at: number }[];
  /** Decimals that tell the ticks apart: of the stop, or of the share. */
  readonly tickDigits: number;
  /** From one take to the next. */
  readonly stride: number;
}

const MARGIN = { left: 44, right: 92, top: 30, bottom: 30 };

/** The takes' figures as their tolerance judges them, going down (one hopes) into its band. */
export function takesLine(
  takes: readonly TakeOnLine[],
  tolerance: Tolerance,
  { width, height }: { width: number; height: number },
): TakesLine {
  const figures = takes.map(({ reading }) => judgedFigure(reading.falloff, tolerance));
  const foretold = predictionsBeside(takes, tolerance);
  const limit = judgedLimit(tolerance);
  const highest = [...figures, ...foretold].reduce(
    (most, each) => (each === null ? most : Math.max(most, each.value + each.plusMinus)),
    limit * 1.25,
  );
  const left = MARGIN.left;
  const right = width - MARGIN.right;
  const foot = height - MARGIN.bottom;
  const top = highest * 1.05;
  const up = linearScale([0, top], [foot, MARGIN.top]);
  const places = foretold.length;
  const stride = (right - left) / places;
  const across = (i: number) => left + (i + 0.5) * stride;
  const mark = (figure: { value: number; plusMinus: number }, i: number): TakeMark => {
    const x = across(i);
    const top = up(figure.value + figure.plusMinus);
    const bottom = up(Math.max(0, figure.value - figure.plusMinus));
    return { at: [x, up(figure.value)], top, barPath: barBetween(x, top, bottom) };
  };
  const marks = figures.map(mark);
  const ticks = roundValues(0, top, 4).map((value) => ({ value, at: up(value) }));
  const step = (ticks[1]?.value ?? 1) - (ticks[0]?.value ?? 0);
  return {
    width,
    height,
    left,
    right,
    foot,
    limitAt: up(limit),
    path: linePath(bySetup(takes, marks)),
    marks,
    predictions: foretold.map((figure, i) => (figure === null ? null : mark(figure, i))),
    ticks,
    tickDigits: Math.max(0, Math.ceil(-Math.log10(step) - 1e-9)),
    stride,
  };
}

/**
 * What was foretold for each take, and for the one to come where the newest foretells anything. A prediction is of
 * the spread in stops, for the moves of its own set-up: other measures and new set-ups have none.
 */
function predictionsBeside(
  takes: readonly TakeOnLine[],
  { measure }: Tolerance,
): ({ value: number; plusMinus: number } | null)[] {
  const figure = (predicted: Reading['predicted'] | undefined) =>
    !predicted || measure !== 'range'
      ? null
      : { value: predicted.spreadEv, plusMinus: predicted.plusMinusEv };
  const beside = takes.map(({ foretold }) => figure(foretold?.predicted));
  const next = figure(takes.at(-1)?.reading.predicted);
  return next === null ? beside : [...beside, next];
}

function bySetup(takes: readonly TakeOnLine[], marks: readonly TakeMark[]): PlotPoint[][] {
  const lines: PlotPoint[][] = [];
  takes.forEach(({ done }, i) => {
    if (done === null || lines.length === 0) lines.push([]);
    lines.at(-1)!.push(marks[i]!.at);
  });
  return lines.filter((line) => line.length > 1);
}

/** A bar with its two ends, as wide as a mark. */
function barBetween(x: number, top: number, bottom: number): string {
  return linePath([
    [
      [x, top],
      [x, bottom],
    ],
    [
      [x - 5, top],
      [x + 5, top],
    ],
    [
      [x - 5, bottom],
      [x + 5, bottom],
    ],
  ]);
}
