import type { ProfileOptions } from '../engine/profile/make-profile.ts';
import type { Profile } from '../engine/profile/profile.ts';
import type { FrameReport, ReadOptions, ReadPhase } from '../engine/read-frame.ts';
import type { FrameRectangle, Reading } from '../engine/reading.ts';
import { type Setup, UNKNOWN_SETUP } from '../engine/setup.ts';
import type { Tolerance } from '../engine/tolerance.ts';
import { DEFAULT_TOLERANCE } from '../engine/tolerances.ts';
import { type OneSource, openSource, sourceName } from '../sources/open-source.ts';
import { asReadFailure, type ReadFailure } from '../sources/read-failure.ts';
import {
  carriedAnswers,
  doneMoves,
  type MoveAnswer,
  type MoveAnswers,
  measuredDistances,
} from '../takes/move-answers.ts';
import { setupAtTake } from '../takes/setup-after.ts';
import {
  type HeldTake,
  judgedAnew,
  takesOfSetup,
  withNote,
  withSetup,
  withTake,
  withTakeReadAgain,
} from '../takes/take.ts';
import type { BenchEngine } from './bench-engine.ts';
import {
  type BenchReadOptions,
  type Circumstances,
  type Progress,
  refusedOption,
  type SessionListener,
} from './bench-wishes.ts';
import { sameData } from './same-data.ts';

/**
 * What the bench remembers and the order in which it works: one frame at a time, in the order asked for. A read
 * that fails leaves takes and settings as they were.
 */
export class BenchSession {
  /** As entered for the newest set-up, or for the first that will be read. */
  setup: Setup = UNKNOWN_SETUP;
  tolerance: Tolerance = DEFAULT_TOLERANCE;
  takes: readonly HeldTake[] = [];
  /** What became of the newest take's moves so far. */
  answers: MoveAnswers = [];
  /** The read under way; `null` where there is none. */
  progress: (Progress & { readonly fileName: string }) | null = null;
  failure: ReadFailure | null = null;

  private engine: BenchEngine | null = null;
  private lastRead: Promise<unknown> = Promise.resolve();
  private readonly underWay = new Set<AbortController>();
  private judgement = 0;

  constructor(
    private readonly startEngine: () => BenchEngine,
    private readonly listener: SessionListener,
  ) {}

  /**
   * Reads one frame, or several of one unchanged set-up averaged.
   * @throws {@link ReadFailure}
   */
  read(
    sources: readonly OneSource[],
    options: BenchReadOptions = {},
    circumstances: Circumstances = {},
  ): Promise<Reading> {
    if (sources.length === 0) return Promise.reject(new RangeError('there is no frame to read'));
    const refused = refusedOption(options);
    if (refused !== null) return Promise.reject(refused);
    const stop = new AbortController();
    this.underWay.add(stop);
    const result = this.lastRead.then(() => this.readNow(sources, options, stop.signal, circumstances));
    this.lastRead = result.catch(() => {}).finally(() => this.underWay.delete(stop));
    return result;
  }

  /** Reads the newest take's own files again, in another part of the frame. @throws {@link ReadFailure} */
  readAgain(region: FrameRectangle): Promise<Reading> {
    const newest = this.takes.at(-1);
    if (newest === undefined) return Promise.reject(new RangeError('there is no take to read again'));
    const sources = newest.frames.map(({ name, blob }) => new File([blob], name, { type: blob.type }));
    const done = newest.done === null ? {} : { done: newest.done };
    return this.read(sources, { ...done, region }, { again: newest.id });
  }

  /** Answers one of the newest take's moves; `null` takes an answer back. */
  answer(index: number, answer: MoveAnswer | null): void {
    const { moves } = this.takes.at(-1)!.reading;
    this.answers = moves.map((_, i) => (i === index ? answer : (this.answers[i] ?? null)));
    this.listener.changed();
  }

  /** Reads the next frame of the newest take's set-up: after the moves answered as done, in the same part of it. */
  readNext(sources: readonly OneSource[]): Promise<Reading> {
    const newest = this.takes.at(-1);
    if (newest === undefined) return this.read(sources);
    const { moves } = newest.reading;
    const done = doneMoves(moves, this.answers, setupAtTake(this.takes, newest.id));
    const measuredMm = measuredDistances(moves, this.answers);
    const { region } = newest;
    return this.read(sources, region === undefined ? { done } : { done, region }, { measuredMm });
  }

  /** Whether any move was answered, so that the next frame belongs to the same set-up. */
  get hasAnswers(): boolean {
    return this.answers.some((answer) => answer !== null);
  }

  note(id: string, note: string): void {
    this.takes = withNote(this.takes, id, note);
    this.listener.changed();
  }

  /** Stops every read under way or waiting. */
  cancel(): void {
    for (const stop of this.underWay) stop.abort();
  }

  /** @throws {@link ReadFailure}, or RangeError where the reading is none of the takes'. */
  async profile(reading: Reading, options: ProfileOptions = {}): Promise<Profile> {
    const take = this.takes.find((each) => each.reading === reading || sameData(each.reading, reading));
    if (take === undefined) throw new RangeError('a profile is made from the reading of one of the takes');
    try {
      return await this.runningEngine().profile(take.report, options);
    } catch (error) {
      throw this.failed(error, reading.frame.name);
    }
  }

  /**
   * Judges every take by new settings, without its pixels. A set-up is that of the take named, and of those taken of
   * the same; of the newest where none is named. Equal settings change nothing.
   */
  async judgeBy(
    settings: { setup?: Setup; tolerance?: Tolerance },
    takeId: string | undefined = this.takes.at(-1)?.id,
  ): Promise<void> {
    const newest = this.takes.at(-1)?.id;
    const isNewest = takeId === undefined || takesOfSetup(this.takes, takeId).has(newest!);
    const before = isNewest ? this.setup : this.takes.find(({ id }) => id === takeId)!.setup;
    const { setup = before, tolerance = this.tolerance } = settings;
    if (sameData([setup, tolerance], [before, this.tolerance])) return;
    if (isNewest) this.setup = setup;
    if (takeId !== undefined) this.takes = withSetup(this.takes, takeId, setup);
    this.tolerance = tolerance;
    await this.judgeAnew();
  }

  private async judgeAnew(): Promise<void> {
    this.judgement++;
    const judgement = this.judgement;
    this.listener.changed();
    try {
      const before = this.takes;
      const reports: FrameReport[] = [];
      for (const take of before)
        reports.push(await this.runningEngine().rejudge(take.report, this.optionsFor(take.setup)));
      if (judgement !== this.judgement || before.length === 0) return;
      const movesBefore = this.takes.at(-1)!.reading.moves;
      // meanwhile a take may have been noted on, added, or read again: what was read is judged by these settings already
      this.takes = this.takes.map((take, i) =>
        take.report === before[i]?.report ? judgedAnew(take, reports[i]!) : take,
      );
      this.answers = carriedAnswers(movesBefore, this.answers, this.takes.at(-1)!.reading.moves);
      this.listener.reading(this.takes.at(-1)!.reading);
      this.listener.changed();
    } catch (error) {
      this.failed(error, null);
    }
  }

  dispose(): void {
    this.cancel();
    this.engine?.dispose();
    this.engine = null;
  }

  private async readNow(
    sources: readonly OneSource[],
    { done, region }: BenchReadOptions,
    signal: AbortSignal,
    { again, setup, measuredMm = [] }: Circumstances,
  ): Promise<Reading> {
    const fileName = sourceName(sources[0]!);
    this.failure = null;
    try {
      this.showProgress(fileName, 'opening', 0);
      const frames = await Promise.all(sources.map((source) => openSource(source, signal)));
      let judgedBy = this.judgement;
      let report = await this.runningEngine().read(frames, this.optionsFor(setup ?? this.setup, region), {
        onProgress: (phase, fraction) => {
          if (!signal.aborted) this.showProgress(fileName, phase, fraction);
        },
        signal,
      });
      while (judgedBy !== this.judgement) {
        // the settings changed while it was read, or while it was judged anew
        judgedBy = this.judgement;
        report = await this.runningEngine().rejudge(report, this.optionsFor(setup ?? this.setup), { signal });
      }
      this.progress = null;
      const movesBefore = this.takes.at(-1)?.reading.moves ?? [];
      if (again === undefined) {
        this.setup = setup ?? this.setup;
        const next = { report, setup: this.setup, measuredMm, done: done ?? null, region, frames };
        this.takes = withTake(this.takes, next);
        this.answers = [];
      } else {
        this.takes = withTakeReadAgain(this.takes, again, { report, region });
        this.answers = carriedAnswers(movesBefore, this.answers, report.reading.moves);
      }
      this.listener.reading(report.reading);
      this.listener.changed();
      return report.reading;
    } catch (error) {
      this.progress = null;
      throw this.failed(error, fileName);
    }
  }

  private showProgress(fileName: string, phase: ReadPhase, fraction: number): void {
    this.progress = { fileName, phase, fraction };
    this.listener.progress({ phase, fraction });
    this.listener.changed();
  }

  private failed(error: unknown, fileName: string | null): ReadFailure {
    const failure = asReadFailure(error, fileName);
    this.failure = failure;
    this.listener.failure(failure);
    this.listener.changed();
    return failure;
  }

  private optionsFor(setup: Setup, region?: FrameRectangle): ReadOptions {
    const { tolerance } = this;
    return region === undefined ? { setup, tolerance } : { setup, tolerance, region };
  }

  private runningEngine(): BenchEngine {
    this.engine ??= this.startEngine();
    return this.engine;
  }
}
