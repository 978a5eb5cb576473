import type { ProfileOptions } from '../engine/profile/make-profile.ts';
import type { Profile } from '../engine/profile/profile.ts';
import type { Reading } from '../engine/reading.ts';
import { ReadFailure } from '../sources/read-failure.ts';
import { type FullTake, type HeldTake, isInFull, judgedAnew, takeNumber } from '../takes/take.ts';
import type { BenchEngine } from './bench-engine.ts';
import type { SessionListener } from './bench-wishes.ts';
import { JudgedTakes } from './judged-takes.ts';
import type { OpenedShoot } from './opened-shoot.ts';
import { sameData } from './same-data.ts';
import { NO_SHELF, type TakesOnShelf } from './takes-on-shelf.ts';

/** So many of the newest takes stay in memory: whoever compares goes back by one or two. */
const HELD_IN_FULL = 6;

/** The takes of which one is shown, and whose reports lie on the shelf where they are not needed. */
export class ShownTakes extends JudgedTakes {
  /** The take that is being fetched from the shelf to be shown; `null` where none is. */
  fetching: HeldTake | null = null;
  private shownId: string | null = null;
  /** Counts up whenever another shoot is gone on with: a take of the same id is another one then. */
  protected opened = 0;

  constructor(
    startEngine: () => BenchEngine,
    listener: SessionListener,
    private readonly shelf: TakesOnShelf = NO_SHELF,
  ) {
    super(startEngine, listener);
    shelf.addEventListener('kept', () => this.lighten());
  }

  /** The take that was asked for, else the newest. */
  get shown(): FullTake | undefined {
    const shown = this.takes.find(({ id }) => id === this.shownId);
    return shown !== undefined && isInFull(shown) ? shown : this.newest;
  }

  override goOn(shoot: OpenedShoot): void {
    this.fetching = null;
    this.shownId = null;
    this.opened++;
    super.goOn(shoot);
  }

  /** Shows a take, which may have to be fetched first; `null`: the newest, whichever that will be. */
  async show(id: string | null): Promise<void> {
    const take = this.takes.find((each) => each.id === id) ?? null;
    this.fetching = null;
    if (take === null || isInFull(take)) {
      this.shownId = id;
      this.listener.changed();
      return;
    }
    this.fetching = take;
    this.listener.changed();
    const isThere = await this.bring(take, () => this.fetching === take);
    if (this.fetching !== take) return; // another was asked for since
    this.fetching = null;
    if (isThere) this.shownId = id;
    this.lighten();
    this.listener.changed();
  }

  /**
   * Fetches a take's report, if it is not there and is still wanted then; whether it is there now. A failure is told,
   * but not of a take that was deleted meanwhile: there is nothing left to be fetched.
   */
  protected async bring(take: HeldTake, isWanted = () => true): Promise<boolean> {
    if (isInFull(take)) return true;
    const { opened } = this;
    const isOne = () => opened === this.opened && this.takes.some(({ id }) => id === take.id);
    try {
      const full = await this.inFull(take, isOne);
      if (full === null || !isWanted()) return false;
      const { id, report, judgedBy } = full;
      this.takes = this.takes.map((each) => (each.id === id ? judgedAnew(each, report, judgedBy) : each));
      return true;
    } catch (error) {
      if (isOne()) this.reads.failed(error, take.reading.frame.name);
      return false;
    }
  }

  /** @throws {@link ReadFailure}, or RangeError where the reading is none of the takes'. */
  async profile(reading: Reading, options: ProfileOptions = {}): Promise<Profile> {
    const take = this.takes.find((each) => each.reading === reading || sameData(each.reading, reading));
    if (take === undefined) throw new RangeError('a profile is made from the reading of one of the takes');
    try {
      const { report } = isInFull(take) ? take : await this.fetched(take);
      return await this.runningEngine().profile(report, options);
    } catch (error) {
      throw this.reads.failed(error, reading.frame.name);
    }
  }

  /** A take with its report, as it is to be judged now; `null` where it is none of the takes any more. */
  private async inFull(take: HeldTake, isOne: () => boolean): Promise<FullTake | null> {
    let full = await this.fetched(take);
    while (isOne() && !sameData(full.judgedBy, this.judgementOf(this.takes, take.id)))
      full = await this.rejudged(full, this.takes);
    return isOne() ? full : null;
  }

  private async fetched(take: HeldTake): Promise<FullTake> {
    try {
      return judgedAnew(take, await this.shelf.reportOf(take), take.judgedBy);
    } catch (cause) {
      const says = `Take ${takeNumber(take)} could not be fetched from where this browser keeps it. Reload the page and try again.`;
      throw new ReadFailure('unreadable-file', says, take.reading.frame.name, cause);
    }
  }

  /** Lets go of the reports that are not needed and lie safely on the shelf. Nothing that is shown changes by it. */
  private lighten(): void {
    const needed = new Set(this.takes.slice(-HELD_IN_FULL).map(({ id }) => id));
    if (this.shownId !== null) needed.add(this.shownId);
    this.takes = this.shelf.lighter(this.takes, needed);
  }
}
