import type { Surface } from '../engine/fits/surface.ts';
import type { Profile, ProfileReference } from '../engine/profile/profile.ts';
import type { FrameReport, JudgeOptions, ReadOptions, ReadPhase } from '../engine/read-frame.ts';
import type { NamedBlob } from '../sources/open-source.ts';

export interface ProfileOptions {
  /** The surface to take the gains from; the chosen one where left out. */
  readonly model?: Surface['name'];
  readonly reference?: ProfileReference;
  readonly neutral?: boolean;
}

/** What the bench asks of the engine, wherever that runs. */
export interface BenchEngine {
  read(
    frames: readonly NamedBlob[],
    options: ReadOptions,
    run: { onProgress?: (phase: ReadPhase, fraction: number) => void; signal?: AbortSignal },
  ): Promise<FrameReport>;
  rejudge(report: FrameReport, options: JudgeOptions): Promise<FrameReport>;
  profile(report: FrameReport, options: ProfileOptions): Promise<Profile>;
  dispose(): void;
}
