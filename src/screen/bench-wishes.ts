import type { Move } from '../engine/moves/move.ts';
import type { ReadPhase } from '../engine/read-frame.ts';
import type { FrameRectangle, Reading } from '../engine/reading.ts';
import type { Setup } from '../engine/setup.ts';
import type { ReadFailure } from '../sources/read-failure.ts';

export interface BenchReadOptions {
  /** Moves made since the previous take; left out: a new set-up. */
  readonly done?: readonly Move[];
  readonly region?: FrameRectangle;
}

/** What the page itself knows of a read beside what anybody may ask for. */
export interface Circumstances {
  /** The id of the take that is read again. */
  readonly again?: string;
  /** How the light of this frame was arranged, where that is known with it; taken over once it is read. */
  readonly setup?: Setup;
  readonly measuredMm?: readonly (number | null)[];
}

/** A wish that is not understood is refused: a frame read otherwise than asked would be taken for what it is not. */
const KNOWN_OPTIONS: readonly string[] = ['done', 'region'] satisfies (keyof BenchReadOptions)[];

/** The first option that is not understood, as a refusal; `null` where all are. */
export function refusedOption(options: BenchReadOptions): RangeError | null {
  const unknown = Object.keys(options).find((name) => !KNOWN_OPTIONS.includes(name));
  return unknown === undefined
    ? null
    : new RangeError(`frames can't be read with the option "${unknown}" yet`);
}

export interface Progress {
  readonly phase: ReadPhase;
  readonly fraction: number;
}

/** Who is told of what happens. */
export interface SessionListener {
  reading(reading: Reading): void;
  progress(progress: Progress): void;
  failure(failure: ReadFailure): void;
  /** Anything that is shown may have changed. */
  changed(): void;
}
