import type { BatchOutcome, BatchProgress } from '../../workers/correct-batch.ts';
import type { NamedBlob } from '../../workers/engine-api.ts';
import type { FrameToCorrect } from '../engine/correct/frame-differences.ts';
import type { Brush } from '../engine/correct/matte/brush.ts';

/** One frame that is to be corrected, and what is known of it so far. */
export interface SubjectFrame {
  readonly id: number;
  readonly file: NamedBlob;
  /** `null` until it was opened. */
  readonly known: FrameToCorrect | null;
  /** In what it differs from the blank, in sentences; `null` until it was held against it. */
  readonly flags: readonly string[] | null;
  /** Why it can't be corrected. */
  readonly refusal: string | null;
  readonly brush: Brush;
  /** While it is corrected. */
  readonly progress: Pick<BatchProgress, 'phase' | 'fraction'> | null;
  readonly outcome: BatchOutcome | null;
}

export function subjectFrame(id: number, file: File): SubjectFrame {
  return {
    ...{ id, file: { name: file.name, blob: file }, known: null, flags: null, refusal: null, brush: [] },
    ...{ progress: null, outcome: null },
  };
}
