import type { FirstLook } from '../engine/first-look.ts';
import type { ProfileOptions } from '../engine/profile/make-profile.ts';
import type { Profile } from '../engine/profile/profile.ts';
import type { FrameReport, JudgeOptions, ReadOptions, ReadPhase } from '../engine/read-frame.ts';
import type { NamedBlob } from '../sources/open-source.ts';

/** What the bench asks of the engine, wherever that runs. */
export interface BenchEngine {
  read(
    frames: readonly NamedBlob[],
    options: ReadOptions,
    run: {
      onProgress?: (phase: ReadPhase, fraction: number, look?: FirstLook) => void;
      signal?: AbortSignal;
    },
  ): Promise<FrameReport>;
  rejudge(report: FrameReport, options: JudgeOptions, run?: { signal?: AbortSignal }): Promise<FrameReport>;
  profile(report: FrameReport, options: ProfileOptions): Promise<Profile>;
  dispose(): void;
}
