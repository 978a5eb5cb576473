import type { SecondFrameRole } from '../engine/lamps/second-frame.ts';
import type { FrameReport } from '../engine/read-frame.ts';
import type { FrameRectangle, Reading } from '../engine/reading.ts';
import type { CameraResponse } from '../engine/response/camera-response.ts';
import type { NamedBlob, OneSource } from '../sources/open-source.ts';
import { ReadFailure } from '../sources/read-failure.ts';
import { checkMoves } from '../takes/check-moves.ts';
import { movedOn } from '../takes/deleted-take.ts';
import { type Foretold, foretoldNext } from '../takes/foretold.ts';
import { doneMoves, madeAsTold, measuredDistances } from '../takes/move-answers.ts';
import { heldOver, heldSecondFrame, withSecondFrame } from '../takes/second-frames.ts';
import { setupAtNextTake, setupAtTake } from '../takes/setup-after.ts';
import {
  type HeldTake,
  type IncomingTake,
  judgedAnew,
  type MovedSince,
  takeNumber,
  withTake,
} from '../takes/take.ts';
import { takenBefore, takenBeforeNext } from '../takes/taken-before.ts';
import { whenShot } from '../takes/when-shot.ts';
import { refuseAnotherView } from './another-view.ts';
import type { BenchReadOptions } from './bench-element.ts';
import { type Circumstances, understoodRole } from './bench-wishes.ts';
import { DeletableTakes } from './deletable-takes.ts';
import type { NextFrameIs } from './followed-shoot.ts';
import type { ReadQueue, ReadRun, ReadWork } from './read-queue.ts';

type KnownResponses = Pick<Circumstances, 'responses'>;

/**
 * What the bench does with frames: it reads one at a time, in the order asked for. A read that fails leaves takes and
 * settings as they were.
 */
export class BenchSession extends DeletableTakes {
  /** The read under way; `null` where there is none. */
  get progress(): ReadQueue['progress'] {
    return this.reads.progress;
  }

  get failure(): ReadFailure | null {
    return this.reads.failure;
  }

  /** Shows and tells why a file was refused that is no frame; `null`: that is over. */
  refuse(failure: ReadFailure | null): void {
    if (failure === null) this.reads.failure = null;
    else this.reads.failed(failure, failure.fileName);
  }

  /**
   * Reads one frame, or several of one unchanged set-up averaged. A second frame is no take: it stays beside the
   * newest, which is judged anew with it.
   * @throws {@link ReadFailure}, or RangeError for a wish that can't be met. What the page's own answers say is made
   * is asked of moves that were advised, maybe for another arrangement since: that is not checked.
   */
  async read(
    sources: readonly OneSource[],
    options: BenchReadOptions = {},
    circumstances?: Circumstances,
  ): Promise<Reading> {
    if (sources.length === 0) throw new RangeError('there is no frame to read');
    const role = understoodRole(options);
    if (circumstances === undefined && options.done !== undefined)
      checkMoves(options.done, this.setup.arrangement);
    const begin = () => {
      if (role !== null) return this.besideNewest(role, options);
      // as it stands now, and not as it may be judged while the frame is read
      const foretold = foretoldNext(this.takes, options.done ?? null);
      return (frames: readonly NamedBlob[], run: ReadRun) =>
        this.readBlank(frames, run, options, foretold, circumstances);
    };
    return this.reads.add(sources, begin, () => void this.show(null));
  }

  /**
   * Reads the newest take's own files again, in another part of the frame or by another response (`null`: none).
   * @throws {@link ReadFailure}
   */
  readAgain(region?: FrameRectangle, response?: CameraResponse | null): Promise<Reading> {
    const { newest } = this;
    if (newest === undefined || newest.frames.length === 0)
      return Promise.reject(new RangeError('there is no take to read again, or its files are gone'));
    const sources = newest.frames.map(({ name, blob }) => new File([blob], name, { type: blob.type }));
    const done = newest.done === null ? {} : { done: newest.done };
    const by = response === undefined ? newest.report.readBy.response : response;
    const part = region ?? newest.region;
    return this.read(
      sources,
      { ...done, ...(part && { region: part }), ...(by && { response: by }) },
      { again: newest.id },
    );
  }

  /** Reads the next frame of the newest take's set-up: after the moves answered as done, in the same part of it. */
  readNext(sources: readonly OneSource[], by: KnownResponses = {}): Promise<Reading> {
    const { newest } = this;
    if (newest === undefined) return this.read(sources, {}, by);
    const { moves } = newest.reading;
    const done = doneMoves(moves, this.answers, setupAtTake(this.takes, newest.id));
    const measuredMm = measuredDistances(moves, this.answers);
    const { region } = newest;
    const { response } = newest.report.readBy;
    return this.read(
      sources,
      { done, ...(region && { region }), ...(response && { response }) },
      { measuredMm, ...by },
    );
  }

  /** Reads a frame that came in by itself, as what it was said to count as; `unmoved`: nothing was since the last. */
  readFollowed(frame: OneSource, as: NextFrameIs | 'unmoved', by: KnownResponses = {}): Promise<Reading> {
    const { newest } = this;
    if (newest === undefined || as === 'new-setup') return this.read([frame], {}, by);
    const { region } = newest;
    const { response } = newest.report.readBy;
    if (as === 'unmoved')
      return this.read([frame], { done: [], ...(region && { region }), ...(response && { response }) }, by);
    // what was advised of the newest take was done before one that was deleted
    if (as === 'as-advised' && newest.movedSince === null)
      this.answers = madeAsTold(newest.reading.moves, this.answers);
    return this.readNext([frame], by);
  }

  /** Stops every read under way or waiting. */
  cancel(): void {
    this.reads.cancel();
  }

  private async readBlank(
    frames: readonly NamedBlob[],
    run: ReadRun,
    { done, region, response }: BenchReadOptions,
    foretold: Foretold | null,
    { again, setup, measuredMm = [], responses = [] }: Circumstances = {},
  ): Promise<Reading> {
    const judgement = this.judgement;
    const moved = () => this.movedBeforeNext({ done: done ?? null, measuredMm });
    const stands = () =>
      again === undefined
        ? setupAtNextTake(this.takes, { ...moved(), setup: setup ?? this.setup })
        : setupAtTake(this.takes, this.still(again).id);
    const before = () =>
      again === undefined ? takenBeforeNext(this.takes, moved().done) : takenBefore(this.takes, again);
    const options = {
      ...this.judgedBy(stands(), before()),
      ...(region && { region }),
      ...(response ? { response } : { responses }),
    };
    const read = await this.runningEngine().read(frames, options, run);
    const beside = () =>
      this.takes.findLast(({ id }) => again === undefined || id === again)?.secondFrames ?? [];
    const kept = () => heldOver(beside(), again === undefined ? moved().done : [], read);
    const judgedBy = () => this.judgedBy(stands(), before(), kept());
    const isJudged = kept().length === 0;
    return this.judgedLast(read, judgedBy, run, isJudged ? judgement : null, (report) => {
      if (again === undefined) {
        this.setup = setup ?? this.setup;
        this.answers = [];
        const shotAt = whenShot(report.reading.frame, frames);
        const told = this.newest?.movedSince ? null : foretold; // by the take that is gone
        this.come({
          ...{ ...moved(), report, foretold: told, setup: this.setup, region },
          ...{ secondFrames: kept(), frames, shotAt },
        });
      } else {
        this.judged(again, report, (take) => ({ ...take, region }));
        // a take that came in before it could be stopped was fitted together with this one as it was
        if (this.newest!.id !== again) void this.judgeAnew();
      }
      return report.reading;
    });
  }

  /** Reads a second frame in the newest take's part of the frame, and judges that take anew with it. */
  private besideNewest(role: SecondFrameRole, { region, response }: BenchReadOptions): ReadWork<Reading> {
    const { newest } = this;
    if (newest === undefined)
      throw new RangeError('a second frame goes with a blank one: read that one first');
    const { id, reading, report } = newest;
    const by = response ?? report.readBy.response;
    const held = () => this.still(id);
    const stands = () => setupAtTake(this.takes, id);
    const before = () => takenBefore(this.takes, id);
    return async (frames, run) => {
      const part = { region: region ?? reading.region, role, ...(by && { response: by }) };
      const options = { ...this.judgedBy(stands(), []), ...part };
      const second = await this.runningEngine().read(frames, options, run);
      refuseAnotherView(second.reading.frame, reading.frame);
      const withIt = () => withSecondFrame(held().secondFrames, heldSecondFrame(role, second));
      const judgedBy = () => this.judgedBy(stands(), before(), withIt());
      return this.judgedLast(held().report ?? report, judgedBy, run, null, (judged) => {
        this.judged(id, judged, (take) => ({ ...take, secondFrames: withIt() }));
        return second.reading;
      });
    };
  }

  /** One of the takes as it is now. @throws {@link ReadFailure} where it was deleted while something was read for it. */
  private still(id: string): HeldTake {
    const take = this.takes.find((each) => each.id === id);
    if (take === undefined) throw new ReadFailure('cancelled', 'Its take was deleted.', null);
    return take;
  }

  /** What was moved before a take that is to come: also what was before one that was deleted. */
  private movedBeforeNext(moved: MovedSince): MovedSince {
    const since = this.newest?.movedSince ?? null;
    return since === null ? moved : movedOn(since, moved);
  }

  /** Takes a new take over, judged as the settings are. */
  private come(next: Omit<IncomingTake, 'id' | 'judgedBy'>): void {
    const numbers = [this.newest, this.deleted?.take].map((take) => (take ? takeNumber(take) : 0));
    const id = `take-${Math.max(...numbers) + 1}`;
    const judgedBy = this.judgementOf([...this.takes, { ...next, id }], id);
    this.renew(withTake(this.takes, { ...next, id, judgedBy }));
  }

  /** Takes over a report of one of the takes, judged as the settings are, with what else has changed of it. */
  private judged(id: string, report: FrameReport, change: (take: HeldTake) => HeldTake): void {
    const by = this.judgementOf(this.takes, id);
    this.renew(this.takes.map((take) => (take.id === id ? judgedAnew(change(take), report, by) : take)));
  }
}
