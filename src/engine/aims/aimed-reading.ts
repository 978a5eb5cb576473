import type { Aim } from '../aim.ts';
import type { BackgroundLevel, LevelEvidence } from '../exposure/background-level.ts';
import type { CellGrid } from '../grid/cell-grid.ts';
import type { Measurement } from '../reading.ts';
import type { Tolerance } from '../tolerance.ts';
import { type CleanWhite, cleanWhite } from './clean-white.ts';
import { type JudgedRamp, judgedRamp } from './judged-ramp.ts';

/** What is judged: the figures with and without what is in doubt of the light, the cells, and their level. */
export interface AimedInput {
  readonly measurement: Measurement;
  readonly grid: CellGrid;
  readonly level: BackgroundLevel;
  /** What that was read from beside the cells. */
  readonly evidence: LevelEvidence;
  readonly tolerance: Tolerance;
}

/** What the light is worth for an aim other than an even background; figures alone. */
export type AimedReading = CleanWhite | JudgedRamp;

/** `null` for an even background, which the reading itself judges. */
export function aimedReading(aim: Aim, input: AimedInput): AimedReading | null {
  switch (aim.kind) {
    case 'even':
      return null;
    case 'clean-white':
      return cleanWhite(aim, input);
    case 'ramp':
      return judgedRamp(aim, input);
  }
}
