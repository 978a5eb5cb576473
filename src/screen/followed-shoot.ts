import type { Reading } from '../engine/reading.ts';
import { allowedAgain } from '../sources/allowed-again.ts';
import { FolderFollower } from '../sources/folder-follower.ts';
import type { FolderMemory } from '../sources/remembered-folder.ts';
import type { FolderTrouble, FollowedFolder } from '../sources/watched-folder.ts';
import { VerdictSound } from './verdict-sound.ts';

/** What a frame that comes in is taken for. */
export type NextFrameIs = 'as-advised' | 'as-answered' | 'new-setup';

/** Reads a frame that came in; rejects where it can't be read. */
export type ReadFollowed = (file: File, as: NextFrameIs | 'unmoved') => Promise<Pick<Reading, 'verdict'>>;

/** Frames shot within this of one another show one state of the set: nobody moves a light so fast. */
const ONE_STATE_MS = 6000;

/**
 * A shoot that is followed: each frame that the camera writes into a folder is read by itself.
 * @event change - whenever anything of it did
 */
export class FollowedShoot extends EventTarget {
  /** Name of the folder; `null` where none is followed. */
  get folderName(): string | null {
    return this.follower?.folder.name ?? null;
  }
  trouble: FolderTrouble | null = null;
  waiting = 0;
  framesRead = 0;
  framesFailed = 0;
  nextIs: NextFrameIs = 'as-advised';
  /** The folder that was followed last, to be followed again by one press; `null` where none is remembered. */
  remembered: FollowedFolder | null = null;

  /** Whether each verdict is told by a sound too. */
  isHeard = false;

  private follower: FolderFollower | null = null;
  private lastShotMs = Number.NEGATIVE_INFINITY;

  constructor(
    private readonly read: ReadFollowed,
    private readonly memory: FolderMemory,
    private readonly start = (...its: ConstructorParameters<typeof FolderFollower>) =>
      new FolderFollower(...its),
    private readonly sound = new VerdictSound(),
  ) {
    super();
  }

  /** Looks which folder was followed last. */
  async recall(): Promise<void> {
    this.remembered = await this.memory.recall();
    this.changed();
  }

  follow(folder: FollowedFolder): void {
    this.stop();
    this.remembered = folder;
    void this.memory.remember(folder);
    this.framesRead = 0;
    this.framesFailed = 0;
    this.lastShotMs = Number.NEGATIVE_INFINITY;
    this.follower = this.start(folder, {
      take: (file) => this.take(file),
      trouble: (trouble) => {
        this.trouble = trouble;
        this.changed();
      },
      waiting: (frames) => {
        if (frames === this.waiting) return;
        this.waiting = frames;
        this.changed();
      },
    });
    this.changed();
  }

  stop(): void {
    this.follower?.stop();
    this.follower = null;
    this.trouble = null;
    this.waiting = 0;
    this.changed();
  }

  countNextAs(nextIs: NextFrameIs): void {
    this.nextIs = nextIs;
    this.changed();
  }

  /** Has verdicts told by sound, or no longer; to be called by a press of a control. */
  async hear(isHeard: boolean): Promise<void> {
    if (isHeard) await this.sound.ready();
    this.isHeard = isHeard;
    this.changed();
  }

  /** Asks the browser for the folder again and follows it; to be called by a press of a button. */
  async followAgain(): Promise<void> {
    const folder = this.follower?.folder ?? this.remembered;
    if (folder && (await allowedAgain(folder))) this.follow(folder);
  }

  private async take(file: File): Promise<boolean> {
    const isSameState = file.lastModified - this.lastShotMs <= ONE_STATE_MS;
    const as = isSameState && this.nextIs !== 'new-setup' ? 'unmoved' : this.nextIs;
    try {
      const { verdict } = await this.read(file, as);
      if (this.isHeard) this.sound.tell(verdict);
      this.lastShotMs = file.lastModified;
      this.framesRead++;
      return true;
    } catch {
      this.framesFailed++; // shown and told where every failure is
      return false;
    } finally {
      this.changed();
    }
  }

  private changed(): void {
    this.dispatchEvent(new Event('change'));
  }
}
