import type { CorrectPhase } from '../src/engine/correct-frame.ts';
import { EngineError, type EngineErrorCode } from '../src/engine/engine-error.ts';
import type { Profile } from '../src/engine/profile/profile.ts';
import type { CorrectBlobOptions, CorrectedBlob, NamedBlob } from './engine-api.ts';
import type { EngineClient } from './engine-client.ts';

export interface BatchWishes {
  readonly profile: Profile;
  readonly options: CorrectBlobOptions;
  /** One file after the other goes to whichever of these is free. */
  readonly clients: readonly Pick<EngineClient, 'correct'>[];
  /** Puts a corrected frame where it belongs and says under which name. */
  readonly write: (file: NamedBlob, corrected: CorrectedBlob, signal?: AbortSignal) => Promise<string>;
  readonly onProgress?: (news: BatchProgress) => void;
  readonly signal?: AbortSignal;
}

export interface BatchProgress {
  /** Place among the files, and how far that one is, 0 to 1. */
  readonly file: number;
  readonly phase: CorrectPhase | 'saving' | 'over';
  readonly fraction: number;
  /** 0 to 1 of all files. */
  readonly whole: number;
}

/** What became of one file. */
export type BatchOutcome = { readonly name: string } & (
  | {
      readonly state: 'done';
      readonly writtenAs: string;
      readonly clippedPixels: number;
      readonly flags: readonly string[];
      readonly notes?: readonly string[];
      readonly background: CorrectedBlob['background'];
    }
  | {
      readonly state: 'refused';
      readonly code: EngineErrorCode | null;
      readonly message: string;
      /** Where its engine did not come to an end with it: it would not a second time. */
      readonly isHanging?: true;
    }
  | { readonly state: 'cancelled' }
);

/**
 * Corrects files one after the other on each client, and writes each before the next one is begun, so that no more
 * than one frame a client is held. Whatever becomes of one file, also the death of its worker, the rest goes on; a file
 * whose worker died is tried once more at the end, with nothing beside it.
 * Resolves when all are over; a signal leaves what is not done as cancelled.
 */
export async function correctBatch(
  files: readonly NamedBlob[],
  wishes: BatchWishes,
): Promise<BatchOutcome[]> {
  const { clients, signal, onProgress } = wishes;
  const outcomes: BatchOutcome[] = files.map(({ name }) => ({ name, state: 'cancelled' }));
  const parts = new Float64Array(files.length);
  const tell = (file: number, phase: BatchProgress['phase'], fraction: number) => {
    parts[file] = Math.max(parts[file]!, partOfFile(phase, fraction)); // a second try takes nothing back
    onProgress?.({ file, phase, fraction, whole: parts.reduce((sum, part) => sum + part, 0) / files.length });
  };
  let next = 0;
  const workOff = async (client: BatchWishes['clients'][number]) => {
    while (next < files.length && !signal?.aborted) {
      const file = next++;
      outcomes[file] = await outcomeOf(files[file]!, client, wishes, (...news) => tell(file, ...news));
      tell(file, 'over', 1);
    }
  };
  await Promise.all(clients.map(workOff));
  // a worker mostly dies for want of memory, which one frame at a time needs least of
  for (const [file, outcome] of outcomes.entries()) {
    if (outcome.state !== 'refused' || outcome.code !== 'worker-lost' || outcome.isHanging) continue;
    if (signal?.aborted) break;
    outcomes[file] = await outcomeOf(files[file]!, clients[0]!, wishes, (...news) => tell(file, ...news));
    tell(file, 'over', 1);
  }
  return outcomes;
}

async function outcomeOf(
  file: NamedBlob,
  client: BatchWishes['clients'][number],
  { profile, options, write, signal }: BatchWishes,
  tell: (phase: BatchProgress['phase'], fraction: number) => void,
): Promise<BatchOutcome> {
  const { name } = file;
  try {
    const corrected = await client.correct(file, profile, options, {
      onProgress: tell,
      ...(signal && { signal }),
    });
    tell('saving', 0);
    const writtenAs = await write(file, corrected, signal);
    const { clippedPixels, flags, notes, background } = corrected;
    return { name, state: 'done', writtenAs, clippedPixels, flags, notes, background };
  } catch (error) {
    const code = codeOf(error);
    if (code === 'cancelled' || signal?.aborted) return { name, state: 'cancelled' };
    const message = error instanceof Error ? error.message : String(error);
    const isHanging = error instanceof EngineError && error.detail.isHanging === true;
    return { name, state: 'refused', code, message, ...(isHanging && { isHanging }) };
  }
}

function codeOf(error: unknown): EngineErrorCode | null {
  if (error instanceof EngineError) return error.code;
  const { code } = (error ?? {}) as { code?: unknown };
  return typeof code === 'string' ? (code as EngineErrorCode) : null;
}

/** Where a phase begins and ends within a file's own time, about as measured for a 16-bit TIFF. */
const PHASES: Readonly<Record<BatchProgress['phase'], readonly [number, number]>> = {
  opening: [0, 0.05],
  decoding: [0.05, 0.3],
  converting: [0.2, 0.3], // for a few files only
  correcting: [0.3, 0.85],
  writing: [0.85, 0.9],
  saving: [0.9, 1],
  over: [1, 1],
};

/** How far a file is, 0 to 1. */
export function partOfFile(phase: BatchProgress['phase'], fraction: number): number {
  const [from, to] = PHASES[phase];
  return from + fraction * (to - from);
}
