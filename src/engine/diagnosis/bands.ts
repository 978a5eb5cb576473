import type { CellGrid } from '../grid/cell-grid.ts';
import { placeInCells } from '../numeric/cell-centre.ts';
import type { Finding } from '../reading.ts';
import { type BandWave, bandWave } from './band-wave.ts';
import { confidenceOf } from './confidence.ts';
import type { DiagnosisInput } from './diagnosis-input.ts';
import { stopsInWords } from './figures-in-words.ts';
import { adviceOnFlicker } from './mains-flicker.ts';
import { fallWithout } from './spread-without.ts';
import { undithered } from './undithered-step.ts';
import { undulationEv } from './undulation.ts';

/** Bands that are less deep than this, crest to trough, are nobody's business. Own allowance. */
const LEAST_DEPTH_EV = 0.012;
/** Rounding that no noise dithers makes stairs; a wave of this many of their steps is none. */
const STAIR_STEPS = 1.2;
/** Flicker makes bands one way only: waves of this share of their depth the other way as well are something else. */
const OTHER_WAY_SHARE = 0.3;
/** Light itself may undulate as seldom as this over the frame; then even a little of it the other way says so. */
const FEW_CYCLES = 3;
const OTHER_WAY_SHARE_OF_FEW = 0.04;
const LEAST_UNDULATION_EV = 0.008;
/** A JPEG codes in blocks of 8 × 8 pixels, of 16 × 16 where its chroma is halved; what they alone can make. */
const BLOCKS_PX = 16;
const LARGEST_BLOCK_WAVE_EV = 0.05;

/** Lines of brightness across the frame, from light that flickers while the shutter runs over it. */
export function bands({ measurement, grid }: Pick<DiagnosisInput, 'measurement' | 'grid'>): Finding | null {
  if (grid.fine === null) return null;
  const { rows, columns } = grid.fine.profiles;
  const across = bandWave(rows);
  const upright = bandWave(columns);
  const lie = (across?.depthEv ?? 0) >= (upright?.depthEv ?? 0);
  const [wave, otherWave] = lie ? [across, upright] : [upright, across];
  const [lines, others] = lie ? [rows, columns] : [columns, rows];
  if (wave === null) return null;
  const floor = Math.max(
    LEAST_DEPTH_EV,
    STAIR_STEPS * undithered({ grid, pixelNoise: grid.fine.spectrum?.pixelNoise ?? null }),
    wave.depthEv / wave.prominence,
  );
  if (!(wave.depthEv > floor)) return null;
  if ((otherWave?.depthEv ?? 0) > OTHER_WAY_SHARE * wave.depthEv) return null;
  if (grid.jpegDcSteps && isOfBlocks(wave, lines.lines) && wave.depthEv < LARGEST_BLOCK_WAVE_EV) return null;
  if (lines.lines < FEW_CYCLES * wave.periodLines) {
    const borne = Math.max(LEAST_UNDULATION_EV, OTHER_WAY_SHARE_OF_FEW * wave.depthEv);
    if (undulationEv(others) > borne) return null;
  }
  const { seconds = null } = measurement.frame.exposure ?? {};
  const runs = lie ? 'across the frame' : 'up and down the frame';
  return {
    kind: 'bands',
    confidence: confidenceOf(wave.depthEv, floor),
    ev: fallWithout(grid, waveAtCells(wave, grid, lie)),
    mired: null,
    at: darkestNearMiddle(wave, grid, lie),
    says: `Bands ${stopsInWords(wave.depthEv)} deep run ${runs} every ${linesInWords(wave.periodLines)} lines, as from flickering light: ${adviceOnFlicker(wave.depthEv, seconds)}.`,
  };
}

/** To two figures and better. */
const linesInWords = (lines: number) => lines.toFixed(lines < 30 ? 1 : 0);

/** Whether as many waves cross the region as blocks do, to within what tells two waves apart. */
function isOfBlocks({ periodLines }: BandWave, lines: number): boolean {
  return Math.abs(lines / periodLines - lines / BLOCKS_PX) < 1.5;
}

/** The wave's mean over each cell, in stops. */
function waveAtCells({ periodLines, depthEv, phase }: BandWave, grid: CellGrid, lie: boolean): Float64Array {
  const cellLines = lie ? grid.cellHeightPx : grid.cellWidthPx;
  const half = (Math.PI * cellLines) / periodLines;
  const averaged = half > 0 ? Math.sin(half) / half : 1;
  return Float64Array.from({ length: grid.columns * grid.rows }, (_, cell) => {
    const place = lie ? Math.floor(cell / grid.columns) : cell % grid.columns;
    const line = (place + 0.5) * cellLines - 0.5;
    return (depthEv / 2) * averaged * Math.cos((2 * Math.PI * line) / periodLines - phase);
  });
}

/** Where the middle of the frame meets the dark band nearest to it. */
function darkestNearMiddle({ periodLines, phase }: BandWave, grid: CellGrid, lie: boolean) {
  const cellLines = lie ? grid.cellHeightPx : grid.cellWidthPx;
  const cells = lie ? grid.rows : grid.columns;
  const middle = (cells * cellLines) / 2 - 0.5;
  const trough = ((phase + Math.PI) / (2 * Math.PI)) * periodLines;
  const line = trough + Math.round((middle - trough) / periodLines) * periodLines;
  const along = (line + 0.5) / cellLines;
  return lie ? placeInCells(grid, grid.columns / 2, along) : placeInCells(grid, along, grid.rows / 2);
}
