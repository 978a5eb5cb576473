import type { CellGrid } from '../grid/cell-grid.ts';
import { oncePerGrid } from '../grid/once-per-grid.ts';
import { type BandWave, bandWave } from './band-wave.ts';
import { undithered } from './undithered-step.ts';
import { undulationEv } from './undulation.ts';

/** A wave of brightness that flickering light leaves across a frame. */
export interface FlickerWave {
  readonly wave: BandWave;
  /** Whether its bands lie across the frame, its lines being rows. */
  readonly lie: boolean;
  /** The depth that rounding, chance and smooth light may reach. */
  readonly floorEv: number;
}

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

/** The wave of brightness that runs over the whole frame in one direction alone, or `null`. */
export const flickerWave = oncePerGrid((grid): FlickerWave | null => {
  if (grid.fine === null) return null;
  const { rows, columns } = grid.fine.profiles;
  const across = bandWave(rows);
  const upright = bandWave(columns);
  const lie = (across?.depthEv ?? 0) >= (upright?.depthEv ?? 0);
  const [wave, otherWave] = lie ? [across, upright] : [upright, across];
  const [lines, others] = lie ? [rows, columns] : [columns, rows];
  if (wave === null) return null;
  const floorEv = Math.max(
    LEAST_DEPTH_EV,
    STAIR_STEPS * undithered({ grid, pixelNoise: grid.fine.spectrum?.pixelNoise ?? null }),
    wave.depthEv / wave.prominence,
  );
  if (!(wave.depthEv > floorEv)) return null;
  if ((otherWave?.depthEv ?? 0) > OTHER_WAY_SHARE * wave.depthEv) return null;
  if (grid.jpegDcSteps && isOfBlocks(wave, lines.lines) && wave.depthEv < LARGEST_BLOCK_WAVE_EV) return null;
  if (lines.lines < FEW_CYCLES * wave.periodLines) {
    const borne = Math.max(LEAST_UNDULATION_EV, OTHER_WAY_SHARE_OF_FEW * wave.depthEv);
    if (undulationEv(others) > borne) return null;
  }
  return { wave, lie, floorEv };
});

/** Whether as many waves cross the region as blocks do, to within what tells two waves apart. */
function isOfBlocks({ periodLines }: BandWave, lines: number): boolean {
  return Math.abs(lines / periodLines - lines / BLOCKS_PX) < 1.5;
}

/** The wave in stops: the mean over each cell, or with `spans` 0 what it is at the cell's middle. */
export function waveAtCells(
  { wave: { periodLines, depthEv, phase }, lie }: FlickerWave,
  grid: CellGrid,
  spans: 0 | 1 = 1,
): Float64Array {
  const cellLines = lie ? grid.cellHeightPx : grid.cellWidthPx;
  const half = (spans * Math.PI * cellLines) / periodLines;
  const averaged = half > 0 ? Math.sin(half) / half : 1;
  return Float64Array.from({ length: grid.columns * grid.rows }, (_, cell) => {
    const place = lie ? Math.floor(cell / grid.columns) : cell % grid.columns;
    const line = (place + 0.5) * cellLines - 0.5;
    return (depthEv / 2) * averaged * Math.cos((2 * Math.PI * line) / periodLines - phase);
  });
}

/** A map of cells in stops with the bands of flickering light taken out; itself where there are none. */
export function withoutFlicker(stops: Float64Array, grid: CellGrid): Float64Array {
  const flicker = flickerWave(grid);
  if (flicker === null) return stops;
  const bands = waveAtCells(flicker, grid);
  return stops.map((value, cell) => value - bands[cell]!);
}
