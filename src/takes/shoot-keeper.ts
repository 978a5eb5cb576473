import type { Aim } from '../engine/aim.ts';
import type { FrameReport } from '../engine/read-frame.ts';
import type { Tolerance } from '../engine/tolerance.ts';
import type { MoveAnswers } from './move-answers.ts';
import { partsOf, reportOfParts, type ShelvedParts } from './shelved-take.ts';
import { type HeldTake, isInFull, withoutReport } from './take.ts';
import { type ShelfChange, type ShelvedShoot, TAKE_SCHEMA, type TakeShelf } from './take-shelf.ts';

/**
 * What keeps takes from being kept: no room, a database that a newer version of the tool made, none to be had, or no
 * shelf given to this element.
 */
export type KeepingTrouble = 'full' | 'newer' | 'none' | 'no-shelf';

const TROUBLES: Readonly<Record<string, KeepingTrouble>> = {
  QuotaExceededError: 'full',
  VersionError: 'newer',
  NoShelfError: 'no-shelf',
};

/** By the names that the browser gives its errors. */
export function keepingTrouble(error: unknown): KeepingTrouble {
  return TROUBLES[(error as { name?: string } | null)?.name ?? ''] ?? 'none';
}

export interface KeeperWishes {
  readonly shelf: TakeShelf;
  readonly newId: () => string;
  /** Milliseconds since 1970. */
  readonly now: () => number;
  /** Waits a little: what is only judged anew may well be judged once more. */
  readonly pause: () => Promise<void>;
  /** Told when keeping fails, and with `null` when it goes on. */
  readonly trouble: (trouble: KeepingTrouble | null) => void;
  /** Told whenever takes have been kept, so that their reports can be let go. */
  readonly kept?: () => void;
}

/** What is to be kept of a page: its takes, what they are judged by, and what can be taken back. */
export interface ToKeep {
  readonly takes: readonly HeldTake[];
  readonly tolerance: Tolerance;
  readonly aim?: Aim;
  /** What became of the newest take's moves so far. */
  readonly answers?: MoveAnswers;
  /** A take that was deleted and may be taken back: it stays on the shelf, beside the others. */
  readonly deleted?: { readonly take: HeldTake } | null;
}

/**
 * Keeps a page's takes on the shelf as they come and change: each write holds what is new since the last that went well,
 * and one write follows another. A page that reads nothing leaves nothing.
 */
export class ShootKeeper {
  private shoot: Pick<ShelvedShoot, 'id' | 'beganAt'> | null = null;
  private wanted: ToKeep | null = null;
  /** The takes as they were last written, by id: none of them holds more than the page itself does. */
  private kept = new Map<string, HeldTake>();
  private keptWish: ToKeep | null = null;
  private onShelf: ReadonlySet<string> = new Set();
  private keptFiles: HeldTake['frames'] = [];
  /** Reports that lie on the shelf. */
  private readonly safe = new WeakSet<FrameReport>();
  private writing: Promise<void> | null = null;
  private isPutting = false;
  private troubled: KeepingTrouble | null = null;

  constructor(private readonly wishes: KeeperWishes) {}

  /** The shoot that is kept; `null` before the first take. */
  get shootId(): string | null {
    return this.shoot?.id ?? null;
  }

  /** Whether all that was last to be kept is. */
  get isAllKept(): boolean {
    return this.wanted === this.keptWish;
  }

  /** Sees to it that this is kept; the same again costs nothing. */
  keep({ takes, tolerance, aim, answers, deleted }: ToKeep): void {
    if (takes.length === 0 && this.shoot === null) return;
    const wanted = { takes, tolerance, aim, answers, deleted };
    if (isSame(wanted, this.wanted)) return;
    this.wanted = wanted;
    this.tryAgain();
  }

  /** Keeps what could not be kept before, now that there may be room. */
  tryAgain(): void {
    this.writing ??= this.write().finally(() => {
      this.writing = null;
    });
  }

  /** Goes on with a shoot whose takes were taken from the shelf. */
  goOn({ id, beganAt, tolerance, aim, answers }: ShelvedShoot, takes: readonly HeldTake[]): void {
    this.shoot = { id, beganAt };
    this.wanted = { takes, tolerance, aim, answers };
    this.keptWish = this.wanted;
    this.noteKept(takes);
  }

  /** The takes with the reports that lie on the shelf let go, but for those of the takes named. */
  lighter(takes: readonly HeldTake[], needed: ReadonlySet<string>): readonly HeldTake[] {
    const isLetGo = (take: HeldTake) =>
      !needed.has(take.id) && isInFull(take) && this.safe.has(take.report) && this.kept.get(take.id) === take;
    if (this.isPutting || !takes.some(isLetGo)) return takes;
    const lighter = takes.map((take) => {
      if (!isInFull(take) || !isLetGo(take)) return take;
      const light = withoutReport(take);
      this.kept.set(take.id, light); // nothing of it has to be written for that
      return light;
    });
    if (takes === this.wanted?.takes) {
      const wish = { ...this.wanted, takes: lighter };
      if (this.keptWish === this.wanted) this.keptWish = wish;
      this.wanted = wish;
    }
    return lighter;
  }

  /** A take's report, from the shelf. Rejects where it is not there. */
  async reportOf(take: HeldTake): Promise<FrameReport> {
    if (this.shoot === null) throw new Error('nothing was kept');
    const report = reportOfParts(take, await this.wishes.shelf.evidenceOf(this.shoot.id, take.id));
    this.safe.add(report);
    return report;
  }

  /** Resolves once all that was to be kept is, or could not be. */
  async settled(): Promise<void> {
    while (this.writing !== null) await this.writing;
  }

  private async write(): Promise<void> {
    while (this.wanted !== null && this.wanted !== this.keptWish) {
      // a new take is not to be lost to a crash; one that is judged by another limit can wait, and the page be drawn first
      if (this.wanted.takes.every(({ id }) => this.kept.has(id))) await this.wishes.pause();
      const { wanted } = this;
      const { takes, tolerance } = wanted;
      this.shoot ??= { id: this.wishes.newId(), beganAt: this.wishes.now() };
      const order = takes.map(({ id }) => id);
      const shoot: ShelvedShoot = {
        ...this.shoot,
        ...{ schema: TAKE_SCHEMA, lastAt: this.wishes.now(), takes: takes.length, order, tolerance },
        ...smallOf(wanted),
      };
      this.isPutting = true;
      try {
        await this.wishes.shelf.put(shoot, this.changeTo(wanted));
      } catch (error) {
        this.tell(keepingTrouble(error));
        return; // the next change tries again, with all that is not kept
      } finally {
        this.isPutting = false;
      }
      this.noteKept(takes, wanted.deleted?.take.id);
      this.keptWish = wanted;
      this.tell(null);
      this.wishes.kept?.();
    }
  }

  private noteKept(takes: readonly HeldTake[], spared?: string): void {
    for (const take of takes) if (isInFull(take)) this.safe.add(take.report);
    this.kept = new Map(takes.map((take) => [take.id, take]));
    this.keptFiles = takes.at(-1)?.frames ?? [];
    this.onShelf = new Set(spared === undefined ? this.kept.keys() : [...this.kept.keys(), spared]);
  }

  private changeTo({ takes, deleted }: ToKeep): ShelfChange {
    const changed = new Map<string, ShelvedParts>();
    for (const take of takes)
      if (take !== this.kept.get(take.id))
        changed.set(take.id, partsOf(take, isInFull(take) && !this.safe.has(take.report)));
    const files = takes.at(-1)?.frames ?? [];
    const stays = new Set([...takes.map(({ id }) => id), deleted?.take.id]);
    const gone = [...this.onShelf].filter((id) => !stays.has(id));
    return { takes: changed, gone, ...(files !== this.keptFiles && { files }) };
  }

  private tell(trouble: KeepingTrouble | null): void {
    if (trouble === this.troubled) return;
    this.troubled = trouble;
    this.wishes.trouble(trouble);
  }
}

/** What is large by reference: of a page that lives, what has changed is another object. */
function isSame(one: ToKeep, other: ToKeep | null): boolean {
  return (
    one.takes === other?.takes &&
    one.tolerance === other.tolerance &&
    one.deleted?.take === other.deleted?.take &&
    JSON.stringify(smallOf(one)) === JSON.stringify(smallOf(other))
  );
}

/** What is left out of a shoot's entry where nobody has said anything. */
function smallOf({ aim, answers = [] }: ToKeep): Pick<ShelvedShoot, 'aim' | 'answers'> {
  return {
    ...(aim && aim.kind !== 'even' && { aim }),
    ...(answers.some((answer) => answer !== null) && { answers }),
  };
}
