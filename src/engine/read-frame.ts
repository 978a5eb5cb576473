import { type Aim, EVEN } from './aim.ts';
import { type AimedReading, aimedReading } from './aims/aimed-reading.ts';
import { isBelieved } from './diagnosis/causes.ts';
import { cellLuminance } from './diagnosis/cell-luminance.ts';
import { findings, plainFindings } from './diagnosis/findings.ts';
import { withoutFlicker } from './diagnosis/flicker-wave.ts';
import { judge } from './diagnosis/verdict.ts';
import { within } from './diagnosis/within.ts';
import { type BackgroundLevel, backgroundLevel } from './exposure/background-level.ts';
import { chooseSurface } from './fits/choose-surface.ts';
import { surfaceAtCells } from './fits/evaluate-surface.ts';
import type { Surface } from './fits/surface.ts';
import { doubtEv } from './frame/light-doubt.ts';
import type { CellGrid } from './grid/cell-grid.ts';
import type { Platform } from './intake/platform.ts';
import type { SecondFrame } from './lamps/second-frame.ts';
import { readSet, type SetReading } from './lamps/set-reading.ts';
import { type SetSamples, setSamples } from './lamps/set-samples.ts';
import { setSurface } from './lamps/set-surface.ts';
import {
  type FrameSource,
  type LightTrust,
  type MeasuredFrame,
  type MeasureOptions,
  measureFrame,
  type ReadPhase,
} from './measure-frame.ts';
import { plainMoves } from './moves/plain-moves.ts';
import { plannedMoves } from './moves/planned-moves.ts';
import { fittedTogether, MOST_TOGETHER, type TakenBefore } from './moves/taken-before.ts';
import type { Reading } from './reading.ts';
import type { Setup } from './setup.ts';
import type { Tolerance } from './tolerance.ts';

export type { FrameSource, ReadPhase } from './measure-frame.ts';

export interface JudgeOptions {
  readonly setup: Setup;
  readonly tolerance: Tolerance;
  /** What the background is to become; left out: even. */
  readonly aim?: Aim;
  /** Second frames of the same set, for what one cannot tell. */
  readonly secondFrames?: readonly SecondFrame[];
  /** Earlier takes of the same set-up and the moves made after each, oldest first: fitted together with this one. */
  readonly earlierTakes?: readonly TakenBefore[];
}

export type ReadOptions = JudgeOptions & MeasureOptions;

/** A reading with the intermediate results that plots and the profile are made from. Structured-cloneable. */
export interface FrameReport extends Omit<MeasuredFrame, 'measurement'> {
  readonly reading: Reading;
  /** How much light the background has, against the level at which the file clips. */
  readonly level: BackgroundLevel;
  /** What its light is worth for another aim than an even background; `null` for that one. */
  readonly aimed: AimedReading | null;
  /** The measured light as the model of a set is fitted to it. */
  readonly samples: SetSamples;
  /** The set that the model finds; `null` for a second frame, and where too little was measured. */
  readonly set: SetReading | null;
  /** Whether that set follows the frame, and second frames go with it, closely enough to be believed. */
  readonly isSetTrusted: boolean;
  /** What the set was fitted with. */
  readonly fittedWith: {
    readonly setup: Setup;
    readonly secondFrames: readonly SecondFrame[];
    /** As many of the newest as can be fitted together with it. */
    readonly earlierTakes: readonly TakenBefore[];
  };
}

/**
 * Reads one blank frame, or several of one unchanged set-up averaged. A second frame (`role`) is measured alike, but
 * neither causes nor moves are drawn from it: with its role and samples it goes into `secondFrames` of the blank one.
 *
 * @throws {@link EngineError} with a code of the public contract.
 */
export async function readFrame(
  sources: readonly FrameSource[],
  options: ReadOptions,
  platform: Platform,
  onProgress: (phase: ReadPhase, fraction: number) => void = () => {},
): Promise<FrameReport> {
  const measured = await measureFrame(sources, options, platform, onProgress);
  const samples = samplesOf(measured);
  const set = options.role === undefined ? fitted(measured, samples, options) : null;
  const whole = report(measured, samples, set, options);
  if (options.role === undefined) return whole;
  return { ...whole, reading: { ...whole.reading, findings: [], moves: [] } };
}

/** Bands of flickering light are no part of a set's light, so they are taken out first. */
export function samplesOf({ measurement, grid, chosen }: MeasuredFrame): SetSamples {
  const stops = withoutFlicker(cellLuminance(grid).light.map(Math.log2), grid);
  const smooth = surfaceAtCells(chosen, grid);
  const [red, green, blue] = [smooth.red, smooth.green, smooth.blue];
  const smoothStops = red.map((_, i) =>
    Math.log2(grid.toXyz[3] * 2 ** red[i]! + grid.toXyz[4] * 2 ** green[i]! + grid.toXyz[5] * 2 ** blue[i]!),
  );
  return setSamples(grid, stops, smoothStops, measurement.frame);
}

/** Judges an earlier report anew for another set-up, tolerance or second frame, without touching pixels. */
export function rejudge(earlier: FrameReport, options: JudgeOptions): FrameReport {
  const { findings: _f, moves: _m, predicted: _p, within: _w, verdict: _v, ...measurement } = earlier.reading;
  const measured = { ...earlier, measurement };
  const set =
    earlier.set === null || isFittedWith(earlier, options)
      ? earlier.set
      : fitted(measured, earlier.samples, options);
  return report(measured, earlier.samples, set, options, set === earlier.set ? earlier : null);
}

function isFittedWith(
  { fittedWith }: FrameReport,
  { setup, secondFrames = [], earlierTakes = [] }: JudgeOptions,
): boolean {
  // of plain data the text tells whether it is the same; the kind of light is no part of the fit
  const text = (its: FrameReport['fittedWith']) => {
    const { light: _light, ...lengths } = its.setup;
    // what was found of earlier takes is only where a fit begins
    const before = its.earlierTakes.map(({ samples, setup, done }) => [
      samples,
      { ...setup, light: null },
      done,
    ]);
    return JSON.stringify([lengths, its.secondFrames, before]);
  };
  return text(fittedWith) === text({ setup, secondFrames, earlierTakes: earlierTakes.slice(-MOST_TOGETHER) });
}

function fitted(
  { measurement }: MeasuredFrame,
  samples: SetSamples,
  { setup, secondFrames = [], earlierTakes = [] }: JudgeOptions,
): SetReading | null {
  return readSet(measurement, samples, setup, secondFrames, fittedTogether(earlierTakes, samples.aspect));
}

function report(
  { measurement, ...evidence }: MeasuredFrame,
  samples: SetSamples,
  set: SetReading | null,
  { setup, tolerance, aim = EVEN, secondFrames = [], earlierTakes = [] }: JudgeOptions,
  ofSameSet: FrameReport | null = null,
): FrameReport {
  const { grid, space, regionSays, wholeLight, light, readBy } = evidence;
  const surfaces = evidence.surfaces.filter(({ name }) => name !== 'set');
  // causes and moves go by the figures as read: a doubt that they all share makes no move less worth its while
  const input = { measurement: light.asRead, grid, surfaces, set, setup, tolerance, wholeLight };
  const isSetTrusted = isBelieved(input);
  const found = findings(input);
  const passing = within(
    { ...grid, region: measurement.region, evMap: measurement.falloff.evMap },
    tolerance,
  );
  const asRead = judge(light.asRead, tolerance, grid);
  const level = backgroundLevel(grid, light);
  const reading = {
    ...measurement,
    findings: found,
    ...(plannedMoves({
      ...input,
      ...{ findings: found, within: passing, verdict: asRead, earlierTakes, doubtEv: doubtOf(light) },
    }) ?? {
      moves: plainMoves({ ...input, findings: plainFindings(input), within: passing, verdict: asRead }),
      predicted: null, // a prediction needs a model of the set
    }),
    within: passing,
    verdict: judge(measurement, tolerance, grid),
  };
  return {
    reading,
    level,
    aimed: aimedReading(aim, { measurement, grid, level, evidence: light, tolerance }),
    grid,
    ...(ofSameSet
      ? surfacesOf(ofSameSet)
      : surfacesWithSet(surfaces, isSetTrusted ? set : null, samples, grid)),
    space,
    regionSays,
    wholeLight,
    light,
    readBy,
    samples,
    set,
    isSetTrusted,
    fittedWith: { setup, secondFrames, earlierTakes: earlierTakes.slice(-MOST_TOGETHER) },
  };
}

/** What a spread to come may be wrong by because the file's light is in doubt. */
function doubtOf({ brightestLight, doubt }: LightTrust): (spreadEv: number) => number {
  return (spreadEv) => doubtEv(doubt, brightestLight, brightestLight * 2 ** -spreadEv);
}

/** The light of the set, where it is believed, is one of the surfaces that a frame may be corrected by. */
function surfacesWithSet(
  fittedSurfaces: readonly Surface[],
  set: SetReading | null,
  samples: SetSamples,
  grid: CellGrid,
): Pick<FrameReport, 'surfaces' | 'chosen' | 'chosenBecause'> {
  const ofSet = set && setSurface(set, samples, grid);
  const richest = fittedSurfaces.findIndex(({ name }) => name === 'spline');
  const surfaces = ofSet
    ? fittedSurfaces.toSpliced(richest < 0 ? fittedSurfaces.length : richest, 0, ofSet)
    : fittedSurfaces;
  const { chosen, because } = chooseSurface(surfaces);
  return { surfaces, chosen, chosenBecause: because };
}

const surfacesOf = ({ surfaces, chosen, chosenBecause }: FrameReport) => ({
  surfaces,
  chosen,
  chosenBecause,
});
