import { proxy, type Remote, wrap } from 'comlink';
import type { FrameToCorrect } from '../src/engine/correct/frame-differences.ts';
import type { PictureSize } from '../src/engine/export/gain-picture.ts';
import type { FrameLook } from '../src/engine/glance-at-frame.ts';
import type { ShotFacts } from '../src/engine/intake/shot-facts.ts';
import type { CorrectionPreview, OpenedFrame, PreviewOptions } from '../src/engine/preview-correction.ts';
import type { ProfileOptions } from '../src/engine/profile/make-profile.ts';
import type { Profile } from '../src/engine/profile/profile.ts';
import type { BracketOptions } from '../src/engine/read-bracket.ts';
import type { FrameReport, JudgeOptions, ReadOptions } from '../src/engine/read-frame.ts';
import type { CameraResponse } from '../src/engine/response/camera-response.ts';
import type { FrameGlance } from '../src/engine/sorting/frame-glance.ts';
import type { ToldKind } from '../src/engine/sorting/frame-kind.ts';
import type {
  CorrectBlobOptions,
  CorrectedBlob,
  EngineApi,
  GainBlob,
  NamedBlob,
  ReportBracket,
  ReportCorrection,
  ReportProgress,
} from './engine-api.ts';
import { lost, lostByHanging } from './engine-lost.ts';
import { transferEngineErrors } from './error-transfer.ts';
import { HangWatch, longestSilenceMs } from './hang-watch.ts';
import { JobQueue } from './job-queue.ts';

/** As much of a Worker as the client needs. */
export type EngineWorker = Pick<
  Worker,
  'postMessage' | 'addEventListener' | 'removeEventListener' | 'terminate'
>;

export interface RunOptions {
  readonly onProgress?: ReportProgress;
  readonly signal?: AbortSignal;
}

export interface BracketRunOptions {
  readonly onProgress?: ReportBracket;
  readonly signal?: AbortSignal;
}

export interface CorrectRunOptions {
  readonly onProgress?: ReportCorrection;
  readonly signal?: AbortSignal;
}

/**
 * The engine as the page sees it: in a worker that is started at the first call, one job at a time in the order of
 * asking. A worker that dies rejects everything outstanding with `worker-lost`, one that hangs what it hangs at; the next
 * call gets a fresh one.
 */
export class EngineClient {
  private readonly startWorker: () => EngineWorker;
  private readonly queue = new JobQueue();
  private running: { readonly worker: EngineWorker; readonly engine: Remote<EngineApi> } | null = null;
  private watch: HangWatch | null = null;

  constructor(startWorker: () => EngineWorker = startEngineWorker) {
    this.startWorker = startWorker;
  }

  /**
   * Reads frames. Blobs go over by reference; their bytes are read in the worker. Progress stops with the promise.
   *
   * @throws {@link EngineError} what the engine throws, `cancelled` by the signal, `worker-lost`.
   */
  read(files: readonly NamedBlob[], options: ReadOptions, run: RunOptions = {}): Promise<FrameReport> {
    const { report, end } = this.reportUntilEnd(run.onProgress);
    return this.run<FrameReport>((engine) => engine.read(files, options, report), run, files).finally(end);
  }

  /** Recovers a camera's response from a bracket. @throws {@link EngineError} as {@link read}, and `bad-bracket`. */
  readBracket(
    files: readonly NamedBlob[],
    options: BracketOptions = {},
    run: BracketRunOptions = {},
  ): Promise<CameraResponse> {
    const { report, end } = this.reportUntilEnd(run.onProgress);
    return this.run<CameraResponse>(
      (engine) => engine.readBracket(files, options, report),
      run,
      files,
    ).finally(end);
  }

  /** Corrects one frame. @throws {@link EngineError} as {@link read}. */
  correct(
    file: NamedBlob,
    profile: Profile,
    options: CorrectBlobOptions = {},
    run: CorrectRunOptions = {},
  ): Promise<CorrectedBlob> {
    const { report, end } = this.reportUntilEnd(run.onProgress);
    const files = options.blank ? [file, options.blank] : [file];
    return this.run<CorrectedBlob>(
      (engine) => engine.correct(file, profile, options, report),
      run,
      files,
    ).finally(end);
  }

  /** Opens a frame for trying corrections on. @throws {@link EngineError} as {@link read}. */
  openToCorrect(
    file: NamedBlob,
    {
      response = null,
      ...run
    }: { readonly signal?: AbortSignal; readonly response?: CameraResponse | null } = {},
  ): Promise<OpenedFrame> {
    return this.run((engine) => engine.openToCorrect(file, response), run, [file]);
  }

  /** Says what sets a frame apart from a profile's blank. @throws {@link EngineError} as {@link read}. */
  differences(frame: FrameToCorrect, profile: Profile, blank?: ShotFacts): Promise<string[]> {
    return this.run((engine) => engine.frameDifferences(frame, profile, blank));
  }

  /** Shows what a correction would do to an opened frame. @throws {@link EngineError} as {@link read}. */
  previewCorrection(
    frame: OpenedFrame,
    profile: Profile,
    options: PreviewOptions,
    blank: OpenedFrame | null,
    run: { readonly signal?: AbortSignal } = {},
  ): Promise<CorrectionPreview> {
    return this.run((engine) => engine.previewCorrection(frame, profile, options, blank), run);
  }

  /** Looks at a frame in small. @throws {@link EngineError} as {@link read}. */
  glance(file: NamedBlob, run: Pick<RunOptions, 'signal'> = {}): Promise<FrameLook> {
    return this.run((engine) => engine.glance(file), run, [file]);
  }

  /** Tells the frames of a shoot apart, in the order they were taken. @throws {@link EngineError} as {@link read}. */
  sortShoot(glances: readonly FrameGlance[], run: Pick<RunOptions, 'signal'> = {}): Promise<ToldKind[]> {
    return this.run((engine) => engine.sortShoot(glances), run);
  }

  /** Judges an earlier report anew. @throws {@link EngineError} as {@link read}. */
  rejudge(report: FrameReport, options: JudgeOptions, run: RunOptions = {}): Promise<FrameReport> {
    return this.run((engine) => engine.rejudge(report, options), run);
  }

  /** @throws {@link EngineError} as {@link read}. */
  profile(report: FrameReport, options: ProfileOptions = {}, run: RunOptions = {}): Promise<Profile> {
    return this.run((engine) => engine.profile(report, options), run);
  }

  /** A profile's gains as a 16-bit picture of a size. @throws {@link EngineError} as {@link read}. */
  gainPicture(profile: Profile, size: PictureSize, format: 'tiff' | 'png' = 'tiff'): Promise<GainBlob> {
    return this.run((engine) => engine.gainPicture(profile, size, format));
  }

  /** A profile as straight ramps in figures: lines of text. @throws {@link EngineError} as {@link read}. */
  rampFigures(profile: Profile): Promise<string> {
    return this.run((engine) => engine.rampFigures(profile));
  }

  /** Ends the worker; whatever is outstanding is rejected with `worker-lost`. A later call starts afresh. */
  dispose(): void {
    this.stop();
    this.queue.rejectAll(lost('The engine was closed while it was at work'));
  }

  /** Runs one job when its turn comes, and watches that its worker does not hang meanwhile. */
  private run<Result>(
    work: (engine: Remote<EngineApi>) => Promise<unknown>,
    { signal }: { readonly signal?: AbortSignal } = {},
    files: readonly NamedBlob[] = [],
  ): Promise<Result> {
    const bytes = files.reduce((sum, { blob }) => sum + blob.size, 0);
    const job = async () => {
      const engine = this.engine();
      const watch = new HangWatch({
        longestSilenceMs: longestSilenceMs(bytes),
        ask: () => engine.answers(),
        hung: (silentMs) => this.giveUp(silentMs, files[0]?.name ?? null),
      });
      this.watch = watch;
      try {
        return (await work(engine)) as Result;
      } finally {
        watch.stop();
      }
    };
    return this.queue.run(job, { signal, whenAborted: () => this.stop() });
  }

  /** Progress may still be on its way when the result is here, or when the job has been given up: it ends with it. */
  private reportUntilEnd<Report extends (...news: never[]) => void>(onProgress: Report | undefined) {
    let finished = false;
    const tell = (...news: Parameters<Report>) => {
      if (finished) return;
      this.watch?.gotFurther();
      onProgress?.(...news);
    };
    return {
      report: onProgress ? proxy(tell as unknown as Report) : null,
      end: () => {
        finished = true;
      },
    };
  }

  private engine(): Remote<EngineApi> {
    if (!this.running) {
      transferEngineErrors();
      const worker = this.startWorker();
      const die = (event: Event) => this.lose(worker, event);
      worker.addEventListener('error', die);
      worker.addEventListener('messageerror', die);
      this.running = { worker, engine: wrap<EngineApi>(worker) };
    }
    return this.running.engine;
  }

  private lose(worker: EngineWorker, event: Event): void {
    if (this.running?.worker !== worker) return; // one that was given up before has nothing left to lose
    event.preventDefault?.();
    this.stop();
    const reason = (event as ErrorEvent).message || 'it ended without saying why, perhaps for want of memory';
    this.queue.rejectAll(lost(`The engine stopped: ${reason.replace(/\.+$/, '')}`));
  }

  /** What waits gets its turn with a worker of its own: it has not come to hang. */
  private giveUp(silentMs: number, fileName: string | null): void {
    this.stop();
    this.queue.rejectCurrent(lostByHanging(silentMs, fileName));
  }

  private stop(): void {
    this.watch?.stop();
    this.watch = null;
    this.running?.worker.terminate();
    this.running = null;
  }
}

function startEngineWorker(): EngineWorker {
  return new Worker(new URL('./engine.worker.ts', import.meta.url), { type: 'module' });
}
