import type { SecondFrameRole } from '../engine/lamps/second-frame.ts';
import type { ReadPhase } from '../engine/read-frame.ts';
import type { Reading } from '../engine/reading.ts';
import type { CameraResponse } from '../engine/response/camera-response.ts';
import type { Setup } from '../engine/setup.ts';
import type { ReadFailure } from '../sources/read-failure.ts';
import type { BenchProgress, BenchReadOptions } from './bench-element.ts';
import { secondFrameRole } from './second-frame-wish.ts';

/** What the page itself knows of a read beside what anybody may ask for. */
export interface Circumstances {
  /** The id of the take that is read again. */
  readonly again?: string;
  /** How the light of this frame was arranged, where that is known with it; taken over once it is read. */
  readonly setup?: Setup;
  readonly measuredMm?: readonly (number | null)[];
  /** Responses kept on this machine, for files of the cameras that they are of. */
  readonly responses?: readonly CameraResponse[];
}

/** A wish that is not understood is refused: a frame read otherwise than asked would be taken for what it is not. */
const KNOWN_OPTIONS: readonly string[] = [
  'done',
  'region',
  'role',
  'lensCheck',
  'response',
] satisfies (keyof BenchReadOptions)[];

/**
 * The role of the frame that is asked for; `null` for a blank one.
 * @throws RangeError that names the first option that is not understood.
 */
export function understoodRole(options: BenchReadOptions): SecondFrameRole | null {
  const unknown = Object.keys(options).find((name) => !KNOWN_OPTIONS.includes(name));
  if (unknown !== undefined) throw new RangeError(`frames can’t be read with the option "${unknown}" yet`);
  const role = secondFrameRole(options);
  if (role !== null && options.done !== undefined)
    throw new RangeError('"done" goes with a blank frame: nothing may be moved before a second one');
  return role;
}

export type Progress = BenchProgress<ReadPhase>;

/** Who is told of what happens. */
export interface SessionListener {
  reading(reading: Reading): void;
  progress(progress: Progress): void;
  failure(failure: ReadFailure): void;
  /** Anything that is shown may have changed. */
  changed(): void;
}
