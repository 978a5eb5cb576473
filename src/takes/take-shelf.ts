import { type DBSchema, type IDBPDatabase, openDB } from 'idb';
import type { Aim } from '../engine/aim.ts';
import type { Tolerance } from '../engine/tolerance.ts';
import type { HeldTake } from './take.ts';

/** Counts up whenever what a take holds changes its shape, so that none is opened by what does not understand it. */
export const TAKE_SCHEMA = 1;

/** One sitting at the set: the takes that one page read, in their order. */
export interface ShelvedShoot {
  readonly id: string;
  readonly schema: number;
  readonly beganAt: number;
  readonly lastAt: number;
  readonly takes: number;
  /** What they were last judged by. */
  readonly tolerance: Tolerance;
  /** What the background was to become; left out: even. */
  readonly aim?: Aim;
}

/** Where takes are kept through reloads and crashes. */
export interface TakeShelf {
  /** Puts takes of a shoot by their place in it, and the shoot itself, all together or not at all. */
  put(shoot: ShelvedShoot, takes: ReadonlyMap<number, HeldTake>): Promise<void>;
  /** The shoots, last one first. */
  shoots(): Promise<ShelvedShoot[]>;
  takesOf(id: string): Promise<HeldTake[]>;
  remove(id: string): Promise<void>;
}

interface Schema extends DBSchema {
  shoots: { key: string; value: ShelvedShoot };
  takes: { key: [shoot: string, place: number]; value: HeldTake };
}

const NAME = 'evenfield';
const VERSION = 1;

/** The shelf in the browser's own database. Opened at the first call; a call fails where the browser has none. */
export class DatabaseShelf implements TakeShelf {
  private opened: Promise<IDBPDatabase<Schema>> | null = null;

  constructor(private readonly name = NAME) {}

  async put(shoot: ShelvedShoot, takes: ReadonlyMap<number, HeldTake>): Promise<void> {
    const database = await this.database();
    const change = database.transaction(['shoots', 'takes'], 'readwrite', { durability: 'strict' });
    const puts = [...takes].map(([place, take]) => change.objectStore('takes').put(take, [shoot.id, place]));
    puts.push(change.objectStore('shoots').put(shoot) as never);
    await Promise.all([...puts, change.done]);
  }

  async shoots(): Promise<ShelvedShoot[]> {
    const all = await (await this.database()).getAll('shoots');
    return all.sort((a, b) => b.lastAt - a.lastAt);
  }

  async takesOf(id: string): Promise<HeldTake[]> {
    return (await this.database()).getAll('takes', within(id));
  }

  async remove(id: string): Promise<void> {
    const database = await this.database();
    const change = database.transaction(['shoots', 'takes'], 'readwrite');
    await Promise.all([
      change.objectStore('shoots').delete(id),
      change.objectStore('takes').delete(within(id)),
      change.done,
    ]);
  }

  private database(): Promise<IDBPDatabase<Schema>> {
    this.opened ??= openDB<Schema>(this.name, VERSION, {
      upgrade(database) {
        database.createObjectStore('shoots', { keyPath: 'id' });
        database.createObjectStore('takes');
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

const within = (id: string) => IDBKeyRange.bound([id, 0], [id, Number.MAX_SAFE_INTEGER]);
