import { type Aim, EVEN } from '../engine/aim.ts';
import type { FrameReport } from '../engine/read-frame.ts';
import type { Tolerance } from '../engine/tolerance.ts';
import { reportOfParts } from '../takes/shelved-take.ts';
import { type KeepingTrouble, ShootKeeper } from '../takes/shoot-keeper.ts';
import type { HeldTake } from '../takes/take.ts';
import { type ShelvedShoot, TAKE_SCHEMA, type TakeShelf } from '../takes/take-shelf.ts';

export interface KeptWishes {
  readonly shelf: TakeShelf;
  /** Claims a shoot for this page; whether no other page has it. */
  readonly claim: (name: string) => Promise<boolean>;
  readonly newId?: () => string;
  readonly now?: () => number;
  readonly pause?: () => Promise<void>;
}

/** A kept shoot as it was left. */
export interface OpenedShoot {
  /** The newest one in full. */
  readonly takes: readonly HeldTake[];
  /** What the takes were last judged by. */
  readonly tolerance: Tolerance;
  readonly aim: Aim;
}

/**
 * The shoots that are kept on this machine: listed, gone on with, deleted and taken back; and the present one, kept as it
 * grows.
 * @event change - whenever anything of it did
 * @event kept - whenever takes of the page were put on the shelf
 */
export class KeptShoots extends EventTarget {
  /** Kept by this and earlier pages, last one first; the present one left out. */
  shoots: readonly ShelvedShoot[] = [];
  trouble: KeepingTrouble | null = null;
  /** What was deleted last, and can be taken back while the page is open. */
  deleted: ShelvedShoot | null = null;
  /** Why a shoot could not be opened; `null` where none was refused. */
  refused: 'in-use' | 'other-schema' | 'not-opened' | null = null;

  private readonly keeper: ShootKeeper;
  /** What this page has claimed: a claim is not granted twice, not even to the same page. */
  private readonly claimed = new Set<string>();

  constructor(private readonly wishes: KeptWishes) {
    super();
    const newId = wishes.newId ?? (() => globalThis.crypto.randomUUID());
    this.keeper = new ShootKeeper({
      shelf: wishes.shelf,
      newId: () => {
        const id = newId();
        void this.claim(id); // its own from the first take on
        return id;
      },
      now: wishes.now ?? Date.now,
      pause: wishes.pause ?? (() => new Promise((resolve) => setTimeout(resolve, PAUSE_MS))),
      trouble: (trouble) => {
        this.trouble = trouble;
        this.changed();
      },
      kept: () => this.dispatchEvent(new Event('kept')),
    });
  }

  /** Looks what is kept; nothing where there is no database. */
  async list(): Promise<void> {
    const all = await this.wishes.shelf.shoots().catch(() => []);
    this.shoots = all.filter(
      ({ id, takes, isDeleted }) => id !== this.keeper.shootId && takes > 0 && !isDeleted,
    );
    this.changed();
    const forGood = all.filter(({ id, isDeleted }) => isDeleted && id !== this.deleted?.id);
    // the page that deleted it may still take it back, as long as it is open
    for (const { id } of forGood) if (await this.claim(id)) await this.wishes.shelf.remove(id);
  }

  /** Keeps the page's takes as they now are. */
  keep(takes: readonly HeldTake[], tolerance: Tolerance, aim: Aim = EVEN): void {
    if (takes.length > 0) this.keeper.keep(takes, tolerance, aim);
  }

  /** Resolves once all that was to be kept is, or could not be. */
  settled(): Promise<void> {
    return this.keeper.settled();
  }

  /** The takes without the reports that lie on the shelf, but for those of the takes named. */
  lighter(takes: readonly HeldTake[], needed: ReadonlySet<string>): readonly HeldTake[] {
    return this.keeper.lighter(takes, needed);
  }

  /** A take's report, from the shelf. Rejects where it is not there. */
  reportOf(take: HeldTake): Promise<FrameReport> {
    return this.keeper.reportOf(take);
  }

  /** The takes of a kept shoot, to go on with; `null` where it can't be opened, and why is told. */
  async open(shoot: ShelvedShoot): Promise<OpenedShoot | null> {
    this.refused = null;
    if (shoot.schema !== TAKE_SCHEMA) this.refused = 'other-schema';
    else if (!(await this.claim(shoot.id))) this.refused = 'in-use';
    const takes = this.refused === null ? await this.takesOf(shoot) : null;
    if (takes !== null) {
      this.keeper.goOn(shoot, takes);
      this.shoots = this.shoots.filter(({ id }) => id !== shoot.id);
    }
    this.changed();
    return takes && { takes, tolerance: shoot.tolerance, aim: shoot.aim ?? EVEN };
  }

  /** Deletes a kept shoot that no page has open; it can be taken back until another is deleted. */
  async delete(shoot: ShelvedShoot): Promise<void> {
    this.refused = (await this.claim(shoot.id)) ? null : 'in-use';
    if (this.refused === null) {
      await this.wishes.shelf.put({ ...shoot, isDeleted: true }, {});
      this.deleted = shoot;
    }
    await this.list();
  }

  async takeBack(): Promise<void> {
    if (this.deleted === null) return;
    await this.wishes.shelf.put(this.deleted, {});
    this.deleted = null;
    await this.list();
  }

  private async claim(id: string): Promise<boolean> {
    if (this.claimed.has(id)) return true;
    const isGranted = await this.wishes.claim(lockOf(id));
    if (isGranted) this.claimed.add(id);
    return isGranted;
  }

  /** `null` where they can't be opened, which is told. */
  private async takesOf(shoot: ShelvedShoot): Promise<HeldTake[] | null> {
    const { shelf } = this.wishes;
    try {
      const takes = await shelf.takesOf(shoot);
      const newest = takes.pop()!;
      return [
        ...takes,
        { ...newest, report: reportOfParts(newest, await shelf.evidenceOf(shoot.id, newest.id)) },
      ];
    } catch {
      this.refused = 'not-opened';
      return null;
    }
  }

  private changed(): void {
    this.dispatchEvent(new Event('change'));
  }
}

const PAUSE_MS = 400;

const lockOf = (id: string) => `evenfield shoot ${id}`;
