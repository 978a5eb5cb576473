import type { LinearRgbSpace } from './colour/linear-rgb-space.ts';
import { unsmoothCells } from './diagnosis/blankness.ts';
import { findings } from './diagnosis/findings.ts';
import { judge } from './diagnosis/verdict.ts';
import { within } from './diagnosis/within.ts';
import { EngineError } from './engine-error.ts';
import { chooseSurface } from './fits/choose-surface.ts';
import { surfaceAtCells } from './fits/evaluate-surface.ts';
import { fitSurfaces } from './fits/fit-surfaces.ts';
import { measureCells } from './fits/measure-cells.ts';
import type { Surface } from './fits/surface.ts';
import { linearise } from './frame/linearise.ts';
import { averageGrids } from './grid/average-grids.ts';
import type { CellGrid } from './grid/cell-grid.ts';
import { cellsFromFrame } from './grid/cells-from-frame.ts';
import { refineByBlocks, standsInPlateaux } from './grid/refine-by-blocks.ts';
import { orientationTurnsSideways } from './grid/upright-rectangle.ts';
import { decodeImage } from './intake/decode-image.ts';
import { readBlockMeans } from './intake/jpeg-block-means.ts';
import type { Platform } from './intake/platform.ts';
import { plainMoves } from './moves/plain-moves.ts';
import type { FrameFacts, FrameRectangle, Measurement, Reading } from './reading.ts';
import type { Setup } from './setup.ts';
import type { Tolerance } from './tolerance.ts';

/** A file as picked, dropped or fetched. */
export interface FrameSource {
  readonly name: string;
  readonly bytes: Uint8Array;
}

export interface JudgeOptions {
  readonly setup: Setup;
  readonly tolerance: Tolerance;
}

export interface ReadOptions extends JudgeOptions {
  /** Part of the upright frame to read; the whole frame where left out. */
  readonly region?: FrameRectangle;
}

export type ReadPhase = 'opening' | 'decoding' | 'averaging' | 'measuring' | 'fitting';

/** A reading with the intermediate results that plots and the profile are made from. Structured-cloneable. */
export interface FrameReport {
  readonly reading: Reading;
  readonly grid: CellGrid;
  /** Every surface that was fitted, simplest first. */
  readonly surfaces: readonly Surface[];
  readonly chosen: Surface;
  /** One sentence saying why that surface was chosen. */
  readonly chosenBecause: string;
  readonly space: LinearRgbSpace;
}

/** Share of cells, mostly clipped or mostly black, from which there is nothing to measure. */
const NOTHING_LEFT_SHARE = 0.98;
const NOT_BLANK_SHARE = 0.5;

/**
 * Reads one blank frame, or several of one unchanged set-up averaged.
 *
 * @throws {@link EngineError} with a code of the public contract.
 */
export async function readFrame(
  sources: readonly FrameSource[],
  options: ReadOptions,
  platform: Platform,
  onProgress: (phase: ReadPhase, fraction: number) => void = () => {},
): Promise<FrameReport> {
  if (sources.length === 0) throw new RangeError('reading needs at least one frame');
  const opened: OpenedFrame[] = [];
  for (const source of sources) opened.push(await openFrame(source, options.region, platform, onProgress));
  const first = opened[0]!;
  const grid = averageGrids(opened.map((frame) => frame.grid));
  refuseWithoutLight(grid);
  const blankness = unsmoothCells(grid);
  if (blankness.share > NOT_BLANK_SHARE) {
    const percent = Math.round(blankness.share * 100);
    throw new EngineError(
      'not-blank',
      `${percent} % of this picture is not smooth light: it seems to show a subject. Take the subject out and shoot the lit background empty.`,
      { share: blankness.share },
    );
  }
  onProgress('fitting', 0);
  const surfaces = fitSurfaces(grid);
  const { chosen, because } = chooseSurface(surfaces);
  onProgress('measuring', 0);
  // What stands in for the truth when errors are resampled need not be simple, only close.
  const closest = surfaces.reduce((best, surface) => (surface.heldOutEv < best.heldOutEv ? surface : best));
  const facts = { ...first.facts, averagedFrames: sources.length };
  const measurement = measureCells(grid, lightOf(closest, grid), facts);
  onProgress('measuring', 1);
  const evidence = { grid, surfaces, chosen, chosenBecause: because, space: first.space };
  return { reading: judged(measurement, { grid, surfaces }, options), ...evidence };
}

/** Judges an earlier report anew for another set-up or tolerance, without touching pixels. */
export function rejudge(report: FrameReport, options: JudgeOptions): FrameReport {
  const { findings: _f, moves: _m, predicted: _p, within: _w, verdict: _v, ...measurement } = report.reading;
  return { ...report, reading: judged(measurement, report, options) };
}

function judged(
  measurement: Measurement,
  { grid, surfaces }: Pick<FrameReport, 'grid' | 'surfaces'>,
  { setup, tolerance }: JudgeOptions,
): Reading {
  const input = { measurement, grid, surfaces, setup, tolerance };
  const found = findings(input);
  const passing = within(measurement.falloff.evMap, grid.columns, grid.rows, measurement.region, tolerance);
  const verdict = judge(measurement, tolerance, grid);
  return {
    ...measurement,
    findings: found,
    moves: plainMoves({ ...input, findings: found, within: passing, verdict }),
    predicted: null, // a prediction needs the lamp model
    within: passing,
    verdict,
  };
}

interface OpenedFrame {
  readonly facts: FrameFacts;
  readonly grid: CellGrid;
  readonly space: LinearRgbSpace;
}

async function openFrame(
  { name, bytes }: FrameSource,
  region: FrameRectangle | undefined,
  platform: Platform,
  onProgress: (phase: ReadPhase, fraction: number) => void,
): Promise<OpenedFrame> {
  onProgress('opening', 0);
  const stored = await decodeImage(bytes, platform, (fraction) => onProgress('decoding', fraction));
  const { frame, colourProfile } = linearise(stored);
  let grid = cellsFromFrame(frame, region, (fraction) => onProgress('averaging', fraction));
  if (stored.format === 'jpeg' && standsInPlateaux(grid)) {
    const blocks = readBlockMeans(bytes);
    if (blocks) grid = refineByBlocks(grid, frame, blocks);
  }
  const sideways = orientationTurnsSideways(stored.orientation);
  const facts: FrameFacts = {
    name,
    sha256: await platform.sha256Hex(bytes),
    widthPx: sideways ? stored.heightPx : stored.widthPx,
    heightPx: sideways ? stored.widthPx : stored.heightPx,
    orientation: stored.orientation,
    bitsPerSample: stored.bitsPerSample,
    light: frame.light,
    lightSays: frame.lightSays,
    colourProfile,
    exposure: stored.exposure,
    averagedFrames: 1,
  };
  return { facts, grid, space: frame.space };
}

function refuseWithoutLight(grid: CellGrid): void {
  const share = (shares: Float64Array) =>
    shares.reduce((n, value) => n + (value > 0.5 ? 1 : 0), 0) / shares.length;
  if (share(grid.highlightShare) > NOTHING_LEFT_SHARE) {
    throw new EngineError(
      'all-clipped',
      'The whole frame is clipped: every part reached the brightest value that the file can hold. Expose so that the hottest part stays a stop below clipping and shoot again.',
    );
  }
  if (share(grid.shadowShare) > NOTHING_LEFT_SHARE) {
    throw new EngineError(
      'no-light',
      'The frame is black: no part of it holds any light. Check that the light is on, the lens cap off and the flash in step, and shoot again.',
    );
  }
}

/** Linear light of a surface at the cells, NaN where the grid has no measurement. */
function lightOf(surface: Surface, grid: CellGrid): CellGrid['light'] {
  const log = surfaceAtCells(surface, grid);
  const linear = (values: Float64Array) =>
    values.map((value, i) => (Number.isNaN(grid.light.green[i]!) ? Number.NaN : 2 ** value));
  return { red: linear(log.red), green: linear(log.green), blue: linear(log.blue) };
}
