import type { Surface } from '../fits/surface.ts';
import type { CellGrid } from '../grid/cell-grid.ts';
import type { SetReading } from '../lamps/set-reading.ts';
import type { Measurement } from '../reading.ts';
import type { Setup } from '../setup.ts';
import type { Tolerance } from '../tolerance.ts';
import type { WholeLight } from './whole-light.ts';

/** Everything that findings and moves are drawn from. */
export interface DiagnosisInput {
  readonly measurement: Measurement;
  readonly grid: CellGrid;
  readonly surfaces: readonly Surface[];
  /** The set that the model finds; `null` where none was fitted. */
  readonly set: SetReading | null;
  readonly setup: Setup;
  readonly tolerance: Tolerance;
  /** `null` or left out where the whole frame was read, or a part that the reader named. */
  readonly wholeLight?: WholeLight | null;
}
