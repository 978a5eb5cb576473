import { type Aim, EVEN } from '../engine/aim.ts';
import type { SecondFrameRole } from '../engine/lamps/second-frame.ts';
import type { TakenBefore } from '../engine/moves/taken-before.ts';
import type { FrameReport, JudgeOptions } from '../engine/read-frame.ts';
import type { Reading } from '../engine/reading.ts';
import { type Setup, UNKNOWN_SETUP } from '../engine/setup.ts';
import type { Tolerance } from '../engine/tolerance.ts';
import { DEFAULT_TOLERANCE } from '../engine/tolerances.ts';
import { carriedAnswers, type MoveAnswer, type MoveAnswers } from '../takes/move-answers.ts';
import { type HeldSecondFrame, withoutSecondFrame } from '../takes/second-frames.ts';
import { type StandingTake, setupAtTake } from '../takes/setup-after.ts';
import {
  type FullTake,
  type HeldTake,
  isInFull,
  type JudgedUnder,
  judgedAnew,
  takesOfSetup,
  withNote,
  withSecondFrames,
  withSetup,
} from '../takes/take.ts';
import { fittedTakes, takenBefore } from '../takes/taken-before.ts';
import type { BenchEngine } from './bench-engine.ts';
import type { SessionListener } from './bench-wishes.ts';
import type { OpenedShoot } from './opened-shoot.ts';
import { ReadQueue, type ReadRun } from './read-queue.ts';
import { sameData } from './same-data.ts';

/** What takes are judged by, or a part of it. */
export interface JudgedBy {
  readonly setup?: Setup;
  readonly tolerance?: Tolerance;
  readonly aim?: Aim;
}

/** What the bench remembers: the takes, what they are judged by, and what was answered and noted. */
export class JudgedTakes {
  /** As entered for the newest set-up, or for the first that will be read. */
  setup: Setup = UNKNOWN_SETUP;
  tolerance: Tolerance = DEFAULT_TOLERANCE;
  aim: Aim = EVEN;
  takes: readonly HeldTake[] = [];
  /** What became of the newest take's moves so far. */
  answers: MoveAnswers = [];

  protected readonly reads: ReadQueue;
  /** Counts up whenever anything that takes are judged by has changed. */
  protected judgement = 0;
  private engine: BenchEngine | null = null;

  constructor(
    private readonly startEngine: () => BenchEngine,
    protected readonly listener: SessionListener,
  ) {
    this.reads = new ReadQueue(listener);
  }

  /** The newest take, which is always held in full. */
  get newest(): FullTake | undefined {
    return this.takes.at(-1) as FullTake | undefined;
  }

  /** Answers one of the newest take's moves; `null` takes an answer back. */
  answer(index: number, answer: MoveAnswer | null): void {
    const { moves } = this.takes.at(-1)!.reading;
    this.answers = moves.map((_, i) => (i === index ? answer : (this.answers[i] ?? null)));
    this.listener.changed();
  }

  /** Whether any move was answered, or made before a take that was deleted: the next frame belongs to the same set-up. */
  get hasAnswers(): boolean {
    const isMoved = (this.newest?.movedSince?.done ?? null) !== null;
    return isMoved || this.answers.some((answer) => answer !== null);
  }

  /** Whether somebody noted, answered or moved something, or shot more than single frames: nothing to be lost unasked. */
  get isWorkedOn(): boolean {
    const isTakeWorkedOn = ({ note, done, secondFrames }: HeldTake) =>
      note !== '' || done !== null || secondFrames.length > 0;
    return this.hasAnswers || this.takes.some(isTakeWorkedOn);
  }

  /** Goes on with takes that were kept, as they were left. What is still read or judged belongs to the shoot before. */
  goOn({ takes, tolerance, aim, answers }: OpenedShoot): void {
    this.reads.cancel();
    this.judgement++;
    this.tolerance = tolerance;
    this.aim = aim;
    this.setup = takes.at(-1)?.setup ?? this.setup;
    this.takes = takes;
    this.answers = answers;
    this.renew(takes);
    const { id, judgedBy } = this.newest!;
    if (!sameData(judgedBy, this.judgementOf(takes, id))) void this.judgeAnew(); // the page was left before it was
  }

  note(id: string, note: string): void {
    this.takes = withNote(this.takes, id, note);
    this.listener.changed();
  }

  /** Does without one of the newest take's second frames from now on. */
  async leaveOut(kind: SecondFrameRole['kind']): Promise<void> {
    const { id, secondFrames } = this.takes.at(-1)!;
    this.takes = withSecondFrames(this.takes, id, withoutSecondFrame(secondFrames, kind));
    await this.judgeAnew();
  }

  /**
   * Judges takes by new settings, without their pixels: at once those whose report is in memory, the others when they
   * are shown. A set-up is that of the take named, and of those taken of
   * the same; of the newest where none is named. Equal settings change nothing.
   */
  async judgeBy(settings: JudgedBy, takeId: string | undefined = this.takes.at(-1)?.id): Promise<void> {
    const newest = this.takes.at(-1)?.id;
    const isNewest = takeId === undefined || takesOfSetup(this.takes, takeId).has(newest!);
    const before = isNewest ? this.setup : this.takes.find(({ id }) => id === takeId)!.setup;
    const { setup = before, tolerance = this.tolerance, aim = this.aim } = settings;
    if (sameData([setup, tolerance, aim], [before, this.tolerance, this.aim])) return;
    if (isNewest) this.setup = setup;
    if (takeId !== undefined && !sameData(setup, before)) this.takes = withSetup(this.takes, takeId, setup);
    this.tolerance = tolerance;
    this.aim = aim;
    await this.judgeAnew();
  }

  protected async judgeAnew(): Promise<void> {
    this.judgement++;
    const judgement = this.judgement;
    this.listener.changed();
    try {
      const before = this.takes;
      const judged: HeldTake[] = [...before];
      // each goes by what was judged of those before it, not by what they were once
      for (const [i, take] of before.entries()) {
        if (judgement !== this.judgement) return; // overtaken: the newer one judges all of them
        if (isInFull(take)) judged[i] = await this.rejudged(take, judged);
      }
      if (judgement !== this.judgement || before.length === 0) return;
      const [was, is] = [before, judged].map((takes) => new Map(takes.map((take) => [take.id, take])));
      // meanwhile a take may have been noted on, added, or read again: what was read is judged by these settings already
      this.renew(
        this.takes.map((take) => {
          const anew = is!.get(take.id);
          const isTheSame = anew && isInFull(anew) && take.report === was!.get(take.id)?.report;
          return isTheSame ? judgedAnew(take, anew.report, anew.judgedBy) : take;
        }),
      );
    } catch (error) {
      this.reads.failed(error, null, () => {
        this.reads.failure = null;
        void this.judgeAnew();
      });
    }
  }

  /** A take judged by the present settings, as one of these. */
  protected async rejudged(take: FullTake, among: readonly HeldTake[]): Promise<FullTake> {
    const { id, secondFrames } = take;
    const by = this.judgementOf(among, id);
    const options = this.judgedBy(setupAtTake(among, id), takenBefore(among, id), secondFrames);
    return judgedAnew(take, await this.runningEngine().rejudge(take.report, options), by);
  }

  /** What one of these takes is judged by. */
  protected judgementOf(among: readonly StandingTake[], id: string): JudgedUnder {
    const { secondFrames: _s, earlierTakes: _e, ...by } = this.judgedBy(setupAtTake(among, id), []);
    return { ...by, after: fittedTakes(among, id) };
  }

  dispose(): void {
    this.reads.cancel();
    this.engine?.dispose();
    this.engine = null;
  }

  /**
   * Judges a report until the settings it was judged by are still in force, and has it taken over before they can
   * change again. `since`: the settings by which it is judged already.
   */
  protected async judgedLast(
    report: FrameReport,
    judgedBy: () => JudgeOptions,
    { signal }: ReadRun,
    since: number | null,
    takeOver: (report: FrameReport) => Reading,
  ): Promise<Reading> {
    let [judged, judgement] = [report, since];
    while (judgement !== this.judgement) {
      judgement = this.judgement;
      judged = await this.runningEngine().rejudge(judged, judgedBy(), { signal });
    }
    this.reads.ended();
    return takeOver(judged);
  }

  /** Takes over takes that were read or judged, with the answers to moves that are still advised, and tells of it. */
  protected renew(takes: readonly HeldTake[]): void {
    const movesBefore = this.takes.at(-1)?.reading.moves ?? [];
    this.takes = takes;
    const { reading } = takes.at(-1)!;
    this.answers = carriedAnswers(movesBefore, this.answers, reading.moves);
    this.listener.reading(reading);
    this.listener.changed();
  }

  /** `setup` is as it stands at the take, after the moves done. */
  protected judgedBy(
    setup: Setup,
    earlierTakes: readonly TakenBefore[],
    secondFrames: readonly HeldSecondFrame[] = [],
  ): JudgeOptions {
    const { tolerance, aim } = this;
    return {
      ...{ setup, tolerance, aim, earlierTakes },
      secondFrames: secondFrames.map(({ role, samples }) => ({ role, samples })),
    };
  }

  protected runningEngine(): BenchEngine {
    this.engine ??= this.startEngine();
    return this.engine;
  }
}
