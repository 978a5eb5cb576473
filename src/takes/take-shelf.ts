import { type DBSchema, type IDBPDatabase, openDB } from 'idb';
import type { Aim } from '../engine/aim.ts';
import type { Tolerance } from '../engine/tolerance.ts';
import type { MoveAnswers } from './move-answers.ts';
import type { ReadingMaps } from './reading-maps.ts';
import { type ShelvedParts, type TakeEvidence, type TakeFacts, takeOfParts } from './shelved-take.ts';
import type { HeldTake } from './take.ts';

/** Counts up whenever what a take holds changes its shape, so that none is opened by what does not understand it. */
export const TAKE_SCHEMA = 2;

/** One sitting at the set: the takes that one page read. */
export interface ShelvedShoot {
  readonly id: string;
  readonly schema: number;
  readonly beganAt: number;
  readonly lastAt: number;
  readonly takes: number;
  /** The ids of the takes in their order; what lies on the shelf beside them was deleted. */
  readonly order: readonly string[];
  /** What they were last judged by. */
  readonly tolerance: Tolerance;
  /** What the background was to become; left out: even. */
  readonly aim?: Aim;
  /** What became of the newest take's moves so far. */
  readonly answers?: MoveAnswers;
  /** Whether it was deleted, and can be taken back until the page that did is closed. */
  readonly isDeleted?: boolean;
}

/** What is put on the shelf beside the shoot itself. */
export interface ShelfChange {
  readonly takes?: ReadonlyMap<string, ShelvedParts>;
  /** The files of its newest take, in place of any before: no other take can be read again. */
  readonly files?: HeldTake['frames'];
  /** Ids of takes that are gone for good. */
  readonly gone?: readonly string[];
}

/** Where takes are kept through reloads and crashes. */
export interface TakeShelf {
  /** Puts a shoot and what has changed of its takes, all together or not at all. */
  put(shoot: ShelvedShoot, change: ShelfChange): Promise<void>;
  /** The shoots, last one first; also those that were deleted and can be taken back. */
  shoots(): Promise<ShelvedShoot[]>;
  /** A shoot's entry as it is now; nothing where it is gone. */
  shoot(id: string): Promise<ShelvedShoot | undefined>;
  /** The takes of a shoot in their order, without their reports. */
  takesOf(shoot: ShelvedShoot): Promise<HeldTake[]>;
  /** What a take was judged from; rejects where it is not there. */
  evidenceOf(shootId: string, takeId: string): Promise<TakeEvidence>;
  /** Does away with takes that are not in their shoot's order: they were deleted, and can't be taken back any more. */
  tidy(id: string): Promise<void>;
  remove(id: string): Promise<void>;
}

type TakeKey = [shoot: string, take: string];

interface Schema extends DBSchema {
  shoots: { key: string; value: ShelvedShoot };
  facts: { key: TakeKey; value: TakeFacts };
  maps: { key: TakeKey; value: ReadingMaps };
  evidence: { key: TakeKey; value: TakeEvidence };
  files: { key: string; value: HeldTake['frames'] };
  /** Whole takes of the first schema: left as they are until their shoot is deleted. */
  takes: { key: [shoot: string, place: number]; value: unknown };
}

const NAME = 'evenfield';
const VERSION = 2;
const PARTS = ['facts', 'maps', 'evidence'] as const;
const ALL = ['shoots', ...PARTS, 'files', 'takes'] as const;

/** The shelf in the browser's own database. Opened at the first call; a call fails where the browser has none. */
export class DatabaseShelf implements TakeShelf {
  private opened: Promise<IDBPDatabase<Schema>> | null = null;

  constructor(private readonly name = NAME) {}

  async put(
    shoot: ShelvedShoot,
    { takes = new Map<string, ShelvedParts>(), files, gone = [] }: ShelfChange,
  ): Promise<void> {
    const database = await this.database();
    const change = database.transaction(ALL, 'readwrite', { durability: 'strict' });
    const [facts, maps, evidence] = PARTS.map((part) => change.objectStore(part));
    const writes: Promise<unknown>[] = [change.done, change.objectStore('shoots').put(shoot)];
    for (const [id, parts] of takes) {
      const key: TakeKey = [shoot.id, id];
      writes.push(facts!.put(parts.facts, key));
      if (parts.judged === null) continue;
      writes.push(maps!.put(parts.judged.maps, key), evidence!.put(parts.judged.evidence, key));
    }
    if (files !== undefined) writes.push(change.objectStore('files').put(files, shoot.id));
    for (const id of gone)
      for (const part of PARTS) writes.push(change.objectStore(part).delete([shoot.id, id]));
    await Promise.all(writes);
  }

  async shoots(): Promise<ShelvedShoot[]> {
    const all = await (await this.database()).getAll('shoots');
    return all.sort((a, b) => b.lastAt - a.lastAt);
  }

  async shoot(id: string): Promise<ShelvedShoot | undefined> {
    return (await this.database()).get('shoots', id);
  }

  async takesOf({ id, order }: ShelvedShoot): Promise<HeldTake[]> {
    const read = (await this.database()).transaction(['facts', 'maps', 'files']);
    const [facts, maps, mapKeys, files = []] = await Promise.all([
      read.objectStore('facts').getAll(within(id)),
      read.objectStore('maps').getAll(within(id)),
      read.objectStore('maps').getAllKeys(within(id)),
      read.objectStore('files').get(id),
    ]);
    const factsOf = new Map(facts.map((each) => [each.id, each]));
    const mapsOf = new Map(mapKeys.map(([, take], i) => [take, maps[i]!]));
    return order.map((take) =>
      takeOfParts(factsOf.get(take)!, mapsOf.get(take)!, take === order.at(-1) ? files : []),
    );
  }

  async evidenceOf(shootId: string, takeId: string): Promise<TakeEvidence> {
    const evidence = await (await this.database()).get('evidence', [shootId, takeId]);
    if (evidence === undefined) throw new Error(`there is no report of ${takeId}`);
    return evidence;
  }

  /** By the order as it lies there now, in one transaction: what somebody remembers of it may be older than its takes. */
  async tidy(id: string): Promise<void> {
    const change = (await this.database()).transaction(['shoots', ...PARTS], 'readwrite');
    const [shoot, keys] = await Promise.all([
      change.objectStore('shoots').get(id),
      change.objectStore('facts').getAllKeys(within(id)),
    ]);
    const gone = shoot === undefined ? [] : keys.filter(([, take]) => !shoot.order.includes(take));
    const deletes = gone.flatMap((key) => PARTS.map((part) => change.objectStore(part).delete(key)));
    await Promise.all([...deletes, change.done]);
  }

  async remove(id: string): Promise<void> {
    const database = await this.database();
    const change = database.transaction(ALL, 'readwrite');
    await Promise.all([
      change.objectStore('shoots').delete(id),
      change.objectStore('files').delete(id),
      ...[...PARTS, 'takes' as const].map((store) => change.objectStore(store).delete(within(id))),
      change.done,
    ]);
  }

  private database(): Promise<IDBPDatabase<Schema>> {
    this.opened ??= openDB<Schema>(this.name, VERSION, {
      upgrade(database, from) {
        if (from < 1) {
          database.createObjectStore('shoots', { keyPath: 'id' });
          database.createObjectStore('takes');
        }
        for (const store of [...PARTS, 'files' as const]) database.createObjectStore(store);
      },
      // another page with a newer tool must not wait for this one; what comes next opens it anew
      blocking: (_from, _to, event) => {
        (event.target as IDBDatabase).close();
        this.opened = null;
      },
      terminated: () => {
        this.opened = null;
      },
    }).catch((error: unknown) => {
      this.opened = null;
      throw error;
    });
    return this.opened;
  }
}

/** Every key that begins with that shoot: a list is greater than any text or number. */
const within = (id: string) => IDBKeyRange.bound([id], [id, []]);
