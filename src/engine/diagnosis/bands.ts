import type { CellGrid } from '../grid/cell-grid.ts';
import { cellSmoother } from '../maps/smooth-cells.ts';
import { placeInCells } from '../numeric/cell-centre.ts';
import type { Finding } from '../reading.ts';
import type { BandWave } from './band-wave.ts';
import { cellLuminance } from './cell-luminance.ts';
import { confidenceOf } from './confidence.ts';
import type { DiagnosisInput } from './diagnosis-input.ts';
import { stopsInWords } from './figures-in-words.ts';
import { type FlickerWave, flickerWave, waveAtCells } from './flicker-wave.ts';
import { adviceOnFlicker } from './mains-flicker.ts';

/** Lines of brightness across the frame, from light that flickers while the shutter runs over it. */
export function bands({ measurement, grid }: Pick<DiagnosisInput, 'measurement' | 'grid'>): Finding | null {
  const found = flickerWave(grid);
  if (found === null) return null;
  const { wave, lie, floorEv } = found;
  const { seconds = null } = measurement.frame.exposure ?? {};
  const runs = lie ? 'across the frame' : 'up and down the frame';
  return {
    kind: 'bands',
    confidence: confidenceOf(wave.depthEv, floorEv),
    ev: spreadOfBands(grid, found),
    mired: null,
    at: darkestNearMiddle(wave, grid, lie),
    says: `Bands ${stopsInWords(wave.depthEv)} deep run ${runs} every ${linesInWords(wave.periodLines)} lines, as from flickering light: ${adviceOnFlicker(wave.depthEv, seconds)}.`,
    lengthsMm: null,
  };
}

/** To two figures and better. */
const linesInWords = (lines: number) => lines.toFixed(lines < 30 ? 1 : 0);

/**
 * What the bands add to the spread of the light: smoothed cells without them, against the same with the whole wave.
 * Smoothing, which takes part of short bands out of the figures, would take it out of this too.
 */
function spreadOfBands(grid: CellGrid, found: FlickerWave): number {
  const { light } = cellLuminance(grid);
  const cellMeans = waveAtCells(found, grid);
  const still = new Float64Array(light.length);
  cellSmoother(grid.columns, grid.rows, light).smooth(
    light.map((value, cell) => value * 2 ** -cellMeans[cell]!),
    still,
  );
  const ev = still.map(Math.log2);
  const whole = waveAtCells(found, grid, 0);
  return range(ev.map((value, cell) => value + whole[cell]!)) - range(ev);
}

function range(values: Float64Array): number {
  let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const value of values) {
    if (value < low) low = value; // NaN compares false
    if (value > high) high = value;
  }
  return high > low ? high - low : 0;
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
