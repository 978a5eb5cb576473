import type { FrameReport } from '../engine/read-frame.ts';
import { newId } from '../sources/new-id.ts';
import type { OpenedJob } from '../takes/job-of-takes.ts';
import { JobRefusal } from '../takes/job-refusal.ts';
import { reportOfParts } from '../takes/shelved-take.ts';
import { type KeepingTrouble, keepingTrouble, ShootKeeper, type ToKeep } from '../takes/shoot-keeper.ts';
import type { HeldTake } from '../takes/take.ts';
import { takeBytes } from '../takes/take-bytes.ts';
import { type ShelvedShoot, TAKE_SCHEMA } from '../takes/take-shelf.ts';
import { heldInFull, shelveAll } from './adopted-takes.ts';
import type { KeptWishes } from './kept-wishes.ts';
import { type OpenedShoot, openedShoot } from './opened-shoot.ts';

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
  /** How many more takes like the newest one there is room for; `null` where that is not known, or many. */
  room: number | null = null;
  /** What was deleted last, and can be taken back while the page is open. */
  deleted: ShelvedShoot | null = null;
  /** Why a shoot could not be opened or deleted; `null` where none was refused. */
  refused: 'in-use' | 'gone' | 'other-schema' | 'not-opened' | null = null;

  private readonly keeper: ShootKeeper;
  /** What is being put on the shelf, and is not to be done away with meanwhile. */
  private coming: string | null = null;
  private bitsPerSample = 8;
  /** What this page has claimed: a claim is not granted twice, not even to the same page. */
  private readonly claimed = new Set<string>();

  constructor(private readonly wishes: KeptWishes) {
    super();
    const nextId = wishes.newId ?? newId;
    this.keeper = new ShootKeeper({
      shelf: wishes.shelf,
      newId: () => {
        const id = nextId();
        void this.claim(id); // its own from the first take on
        void this.wishes.keepForGood?.();
        return id;
      },
      now: wishes.now ?? Date.now,
      pause: wishes.pause ?? (() => new Promise((resolve) => setTimeout(resolve, PAUSE_MS))),
      trouble: (trouble) => {
        this.trouble = trouble;
        this.changed();
        if (trouble === 'full') void this.list(); // of earlier shoots some can go
      },
      kept: () => {
        this.dispatchEvent(new Event('kept'));
        void this.lookForRoom();
      },
    });
  }

  /** Looks what is kept, and does away with what nobody can take back any more; nothing where there is no database. */
  async list(): Promise<void> {
    const { shelf } = this.wishes;
    const all = await shelf.shoots().catch((error: unknown) => {
      if (keepingTrouble(error) === 'newer') this.trouble = 'newer'; // told before anything is read
      return [];
    });
    this.shoots = all.filter(
      ({ id, takes, isDeleted }) => id !== this.keeper.shootId && takes > 0 && !isDeleted,
    );
    this.changed();
    for (const { id } of all.filter((shoot) => this.isOver(shoot))) {
      // the page that deleted it, or its last take, may still take that back as long as it is open
      const shoot = (await this.claim(id)) ? await shelf.shoot(id) : undefined;
      if (shoot !== undefined && this.isOver(shoot)) await shelf.remove(id);
    }
  }

  private isOver({ id, schema, takes, isDeleted }: ShelvedShoot): boolean {
    const isEmpty = takes === 0 && schema === TAKE_SCHEMA;
    const spared = [this.deleted?.id, this.coming, this.keeper.shootId];
    return (isDeleted || isEmpty) && !spared.includes(id);
  }

  /** Keeps the page's takes as they now are. */
  keep(page: ToKeep): void {
    this.bitsPerSample = page.takes.at(-1)?.reading.frame.bitsPerSample ?? this.bitsPerSample;
    this.keeper.keep(page);
  }

  /** Whether all of the page's takes, as they now are, lie on the shelf. */
  get isAllKept(): boolean {
    return this.keeper.isAllKept;
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
  async open(listed: ShelvedShoot): Promise<OpenedShoot | null> {
    // what another version keeps is not even claimed from it
    const shoot = listed.schema === TAKE_SCHEMA ? await this.claimedEntry(listed.id) : listed;
    if (shoot !== null && shoot.schema !== TAKE_SCHEMA) this.refused = 'other-schema';
    const takes = shoot !== null && shoot.schema === TAKE_SCHEMA ? await this.takesOf(shoot) : null;
    if (shoot !== null && takes !== null) {
      await this.keeper.settled(); // what was noted last waits a little before it is kept
      this.keeper.goOn(shoot, takes);
      void this.wishes.shelf.tidy(shoot.id).catch(() => {});
      this.shoots = this.shoots.filter(({ id }) => id !== shoot.id);
      void this.list(); // that which the page held before is an earlier one now
    }
    this.changed();
    return shoot && takes && openedShoot(shoot, takes);
  }

  /**
   * Puts takes that came from elsewhere on the shelf as a shoot of their own, one by one, and opens it: what the page held
   * stays kept. Where that can't be, `null`; or, if `orInPage`, the takes in this page alone, which is told as any other
   * trouble. @throws JobRefusal at a take that is damaged; nothing is then kept of any.
   */
  async adopt(
    facts: Omit<ShelvedShoot, 'id'>,
    takes: OpenedJob['takes'],
    orInPage: boolean,
  ): Promise<OpenedShoot | null> {
    await this.keeper.settled();
    if (!orInPage && !this.isAllKept) return null; // what the page holds is in it alone
    const shoot = { ...facts, id: (this.wishes.newId ?? newId)() };
    try {
      this.coming = shoot.id;
      await this.claim(shoot.id);
      await shelveAll(this.wishes.shelf, shoot, takes);
    } catch (error) {
      if (error instanceof JobRefusal) throw error;
      return orInPage ? openedShoot(facts, await heldInFull(takes)) : null;
    } finally {
      this.coming = null;
    }
    return this.open(shoot);
  }

  /** Whether what is deleted now goes for good, as room is wanted. */
  get isRoomWanted(): boolean {
    return this.trouble === 'full' || this.room !== null;
  }

  /** Deletes a kept shoot that no page has open; it can be taken back until another is deleted, if room is not wanted. */
  async delete({ id }: ShelvedShoot): Promise<void> {
    const { shelf } = this.wishes;
    const shoot = await this.claimedEntry(id);
    if (shoot !== null && this.isRoomWanted) {
      await shelf.remove(id);
      this.keeper.tryAgain();
    } else if (shoot !== null) {
      await shelf.put({ ...shoot, isDeleted: true }, {});
      this.deleted = shoot;
    }
    await this.list();
    await this.lookForRoom();
  }

  async takeBack(): Promise<void> {
    if (this.deleted === null) return;
    const { shelf } = this.wishes;
    this.refused = (await shelf.shoot(this.deleted.id)) === undefined ? 'gone' : null;
    if (this.refused === null) await shelf.put(this.deleted, {}); // claimed since: nobody has changed it
    this.deleted = null;
    await this.list();
  }

  /**
   * A shoot's entry, claimed for this page and as it is now: since it was listed another page may have gone on with it.
   * `null` where it can't be had, and why is told.
   */
  private async claimedEntry(id: string): Promise<ShelvedShoot | null> {
    this.refused = (await this.claim(id)) ? null : 'in-use';
    if (this.refused !== null) return null;
    try {
      const shoot = await this.wishes.shelf.shoot(id);
      if (shoot !== undefined && !shoot.isDeleted) return shoot;
      this.refused = 'gone';
      void this.list();
    } catch {
      this.refused = 'not-opened';
    }
    return null;
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

  private async lookForRoom(): Promise<void> {
    const left = await (this.wishes.bytesLeft?.() ?? null);
    const takes = left === null ? null : Math.floor(left / takeBytes(this.bitsPerSample));
    const room = takes === null || takes > LITTLE_ROOM ? null : takes;
    if (room === this.room) return;
    this.room = room;
    this.changed();
    if (room !== null) await this.list();
  }

  private changed(): void {
    this.dispatchEvent(new Event('change'));
  }
}

const PAUSE_MS = 400;

/** From so many takes on the room that is left is told of. */
const LITTLE_ROOM = 100;

const lockOf = (id: string) => `evenfield shoot ${id}`;
