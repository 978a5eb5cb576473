import { type Aim, EVEN } from '../engine/aim.ts';
import type { Tolerance } from '../engine/tolerance.ts';
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
  readonly takes: readonly HeldTake[];
  /** What the takes were last judged by. */
  readonly tolerance: Tolerance;
  readonly aim: Aim;
}

/**
 * The shoots that are kept on this machine: listed, gone on with, deleted and taken back; and the present one, kept as it
 * grows.
 * @event change - whenever anything of it did
 */
export class KeptShoots extends EventTarget {
  /** Kept by this and earlier pages, last one first; the present one left out. */
  shoots: readonly ShelvedShoot[] = [];
  trouble: KeepingTrouble | null = null;
  /** What was deleted last, and can be taken back while the page is open. */
  deleted: { readonly shoot: ShelvedShoot; readonly takes: readonly HeldTake[] } | null = null;
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
    });
  }

  /** Looks what is kept; nothing where there is no database. */
  async list(): Promise<void> {
    const all = await this.wishes.shelf.shoots().catch(() => []);
    this.shoots = all.filter(({ id, takes }) => id !== this.keeper.shootId && takes > 0);
    this.changed();
  }

  /** Keeps the page's takes as they now are. */
  keep(takes: readonly HeldTake[], tolerance: Tolerance, aim: Aim = EVEN): void {
    if (takes.length > 0) this.keeper.keep(takes, tolerance, aim);
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
    const takes = this.refused === null ? await this.takesOf(shoot) : null;
    if (takes !== null) {
      await this.wishes.shelf.remove(shoot.id);
      this.deleted = { shoot, takes };
    }
    await this.list();
  }

  async takeBack(): Promise<void> {
    if (this.deleted === null) return;
    const { shoot, takes } = this.deleted;
    await this.wishes.shelf.put(shoot, new Map(takes.entries()));
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
  private async takesOf({ id }: ShelvedShoot): Promise<HeldTake[] | null> {
    try {
      return await this.wishes.shelf.takesOf(id);
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
