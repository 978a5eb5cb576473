import type { Aim } from '../engine/aim.ts';
import type { Tolerance } from '../engine/tolerance.ts';
import type { HeldTake } from './take.ts';
import { type ShelvedShoot, TAKE_SCHEMA, type TakeShelf } from './take-shelf.ts';

/** What keeps takes from being kept: no room, or no database to be had. */
export type KeepingTrouble = 'full' | 'none';

export interface KeeperWishes {
  readonly shelf: TakeShelf;
  readonly newId: () => string;
  /** Milliseconds since 1970. */
  readonly now: () => number;
  /** Waits a little: what is only judged anew may well be judged once more. */
  readonly pause: () => Promise<void>;
  /** Told when keeping fails, and with `null` when it goes on. */
  readonly trouble: (trouble: KeepingTrouble | null) => void;
}

/**
 * Keeps a page's takes on the shelf as they come and change: each write holds what is new since the last that went well,
 * and one write follows another. A page that reads nothing leaves nothing.
 */
export class ShootKeeper {
  private shoot: Pick<ShelvedShoot, 'id' | 'beganAt'> | null = null;
  private kept: readonly HeldTake[] = [];
  private wanted: readonly HeldTake[] = [];
  private tolerance: Tolerance | null = null;
  private aim: Aim | null = null;
  private writing: Promise<void> | null = null;
  private troubled: KeepingTrouble | null = null;

  constructor(private readonly wishes: KeeperWishes) {}

  /** The shoot that is kept; `null` before the first take. */
  get shootId(): string | null {
    return this.shoot?.id ?? null;
  }

  /** Sees to it that these takes are kept, as judged by that; the same ones again cost nothing. */
  keep(takes: readonly HeldTake[], tolerance: Tolerance, aim: Aim | null = null): void {
    if (takes === this.wanted) return;
    this.wanted = takes;
    this.tolerance = tolerance;
    this.aim = aim;
    this.writing ??= this.write().finally(() => {
      this.writing = null;
    });
  }

  /** Goes on with a shoot whose takes were taken from the shelf. */
  goOn(shoot: ShelvedShoot, takes: readonly HeldTake[]): void {
    this.shoot = shoot;
    this.kept = takes;
    this.wanted = takes;
  }

  /** Resolves once all that was to be kept is, or could not be. */
  async settled(): Promise<void> {
    while (this.writing !== null) await this.writing;
  }

  private async write(): Promise<void> {
    while (this.wanted !== this.kept) {
      // a new take is not to be lost to a crash; one that is judged by another limit can wait, and the page be drawn first
      if (this.wanted.length <= this.kept.length) await this.wishes.pause();
      const { wanted } = this;
      this.shoot ??= { id: this.wishes.newId(), beganAt: this.wishes.now() };
      const changed = new Map([...wanted.entries()].filter(([place, take]) => take !== this.kept[place]));
      const shoot: ShelvedShoot = {
        ...this.shoot,
        ...{
          schema: TAKE_SCHEMA,
          lastAt: this.wishes.now(),
          takes: wanted.length,
          tolerance: this.tolerance!,
          ...(this.aim && this.aim.kind !== 'even' && { aim: this.aim }),
        },
      };
      try {
        await this.wishes.shelf.put(shoot, changed);
        this.kept = wanted;
        this.tell(null);
      } catch (error) {
        this.tell((error as { name?: unknown } | null)?.name === 'QuotaExceededError' ? 'full' : 'none');
        return; // the next change tries again, with all that is not kept
      }
    }
  }

  private tell(trouble: KeepingTrouble | null): void {
    if (trouble === this.troubled) return;
    this.troubled = trouble;
    this.wishes.trouble(trouble);
  }
}
