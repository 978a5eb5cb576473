import { proxy, type Remote, wrap } from 'comlink';
import type { FrameToCorrect } from '../src/engine/correct/frame-differences.ts';
import { EngineError } from '../src/engine/engine-error.ts';
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
import { transferEngineErrors } from './error-transfer.ts';
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
 * asking. A worker that dies rejects everything outstanding with `worker-lost`; the next call gets a fresh one.
 */
export class EngineClient {
  private readonly startWorker: () => EngineWorker;
  private readonly queue = new JobQueue();
  private running: { readonly worker: EngineWorker; readonly engine: Remote<EngineApi> } | null = null;

  constructor(startWorker: () => EngineWorker = startEngineWorker) {
    this.startWorker = startWorker;
  }

  /**
   * Reads frames. Blobs go over by reference; their bytes are read in the worker. Progress stops with the promise.
   *
   * @throws {@link EngineError} what the engine throws, `cancelled` by the signal, `worker-lost`.
   */
  read(files: readonly NamedBlob[], options: ReadOptions, run: RunOptions = {}): Promise<FrameReport> {
    const { report, end } = reportUntilEnd(run.onProgress);
    const job = () => this.engine().read(files, options, report) as Promise<FrameReport>;
    return this.queue.run(job, { signal: run.signal, whenAborted: () => this.stop() }).finally(end);
  }

  /** Recovers a camera's response from a bracket. @throws {@link EngineError} as {@link read}, and `bad-bracket`. */
  readBracket(
    files: readonly NamedBlob[],
    options: BracketOptions = {},
    run: BracketRunOptions = {},
  ): Promise<CameraResponse> {
    const { report, end } = reportUntilEnd(run.onProgress);
    const job = () => this.engine().readBracket(files, options, report) as Promise<CameraResponse>;
    return this.queue.run(job, { signal: run.signal, whenAborted: () => this.stop() }).finally(end);
  }

  /** Corrects one frame. @throws {@link EngineError} as {@link read}. */
  correct(
    file: NamedBlob,
    profile: Profile,
    options: CorrectBlobOptions = {},
    run: CorrectRunOptions = {},
  ): Promise<CorrectedBlob> {
    const { report, end } = reportUntilEnd(run.onProgress);
    const job = () => this.engine().correct(file, profile, options, report) as Promise<CorrectedBlob>;
    return this.queue.run(job, { signal: run.signal, whenAborted: () => this.stop() }).finally(end);
  }

  /** Opens a frame for trying corrections on. @throws {@link EngineError} as {@link read}. */
  openToCorrect(
    file: NamedBlob,
    {
      response = null,
      ...run
    }: { readonly signal?: AbortSignal; readonly response?: CameraResponse | null } = {},
  ): Promise<OpenedFrame> {
    const job = () => this.engine().openToCorrect(file, response) as Promise<OpenedFrame>;
    return this.queue.run(job, { signal: run.signal, whenAborted: () => this.stop() });
  }

  /** Says what sets a frame apart from a profile's blank. @throws {@link EngineError} as {@link read}. */
  differences(frame: FrameToCorrect, profile: Profile, blank?: ShotFacts): Promise<string[]> {
    return this.queue.run(() => this.engine().frameDifferences(frame, profile, blank) as Promise<string[]>);
  }

  /** Shows what a correction would do to an opened frame. @throws {@link EngineError} as {@link read}. */
  previewCorrection(
    frame: OpenedFrame,
    profile: Profile,
    options: PreviewOptions,
    blank: OpenedFrame | null,
    run: { readonly signal?: AbortSignal } = {},
  ): Promise<CorrectionPreview> {
    const job = () =>
      this.engine().previewCorrection(frame, profile, options, blank) as Promise<CorrectionPreview>;
    return this.queue.run(job, { signal: run.signal, whenAborted: () => this.stop() });
  }

  /** Looks at a frame in small. @throws {@link EngineError} as {@link read}. */
  glance(file: NamedBlob, run: Pick<RunOptions, 'signal'> = {}): Promise<FrameLook> {
    const job = () => this.engine().glance(file) as Promise<FrameLook>;
    return this.queue.run(job, { signal: run.signal, whenAborted: () => this.stop() });
  }

  /** Tells the frames of a shoot apart, in the order they were taken. @throws {@link EngineError} as {@link read}. */
  sortShoot(glances: readonly FrameGlance[], run: Pick<RunOptions, 'signal'> = {}): Promise<ToldKind[]> {
    const job = () => this.engine().sortShoot(glances) as Promise<ToldKind[]>;
    return this.queue.run(job, { signal: run.signal, whenAborted: () => this.stop() });
  }

  /** Judges an earlier report anew. @throws {@link EngineError} as {@link read}. */
  rejudge(report: FrameReport, options: JudgeOptions, run: RunOptions = {}): Promise<FrameReport> {
    const job = () => this.engine().rejudge(report, options) as Promise<FrameReport>;
    return this.queue.run(job, { signal: run.signal, whenAborted: () => this.stop() });
  }

  /** @throws {@link EngineError} as {@link read}. */
  profile(report: FrameReport, options: ProfileOptions = {}, run: RunOptions = {}): Promise<Profile> {
    const job = () => this.engine().profile(report, options) as Promise<Profile>;
    return this.queue.run(job, { signal: run.signal, whenAborted: () => this.stop() });
  }

  /** A profile's gains as a 16-bit picture of a size. @throws {@link EngineError} as {@link read}. */
  gainPicture(profile: Profile, size: PictureSize, format: 'tiff' | 'png' = 'tiff'): Promise<GainBlob> {
    return this.queue.run(() => this.engine().gainPicture(profile, size, format) as Promise<GainBlob>);
  }

  /** A profile as straight ramps in figures: lines of text. @throws {@link EngineError} as {@link read}. */
  rampFigures(profile: Profile): Promise<string> {
    return this.queue.run(() => this.engine().rampFigures(profile) as Promise<string>);
  }

  /** Ends the worker; whatever is outstanding is rejected with `worker-lost`. A later call starts afresh. */
  dispose(): void {
    this.stop();
    this.queue.rejectAll(lost('The engine was closed while it was at work'));
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

  private stop(): void {
    this.running?.worker.terminate();
    this.running = null;
  }
}

/** Progress may still be on its way when the result is here, or when the job has been given up: it ends with it. */
function reportUntilEnd<Report extends (...news: never[]) => void>(onProgress: Report | undefined) {
  let finished = false;
  const tell = (...news: Parameters<Report>) => finished || onProgress?.(...news);
  return {
    report: onProgress ? proxy(tell as unknown as Report) : null,
    end: () => {
      finished = true;
    },
  };
}

function startEngineWorker(): EngineWorker {
  return new Worker(new URL('./engine.worker.ts', import.meta.url), { type: 'module' });
}

function lost(found: string): EngineError {
  return new EngineError(
    'worker-lost',
    `${found}. The earlier takes are kept, and nothing was written. Try the frame again.`,
  );
}
