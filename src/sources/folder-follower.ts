import { type FolderWishes, type FollowedFolder, WatchedFolder } from './watched-folder.ts';

/** While something is being written it is looked at so often; a frame is read within a second of being complete. */
const BUSY_LOOK_MS = 250;
/** Else so often, where the browser tells of changes by itself: a change that it misses is met all the same. */
const QUIET_LOOK_MS = 2000;

/** Tells of changes in a folder; browsers that lack it are looked at by the clock alone. */
interface FolderObserver {
  observe(folder: FollowedFolder): Promise<void>;
  disconnect(): void;
}

interface Surroundings {
  readonly FileSystemObserver?: new (told: () => void) => FolderObserver;
  setTimeout(work: () => void, ms: number): number;
  clearTimeout(timer: number): void;
}

/** Follows a folder by the clock, and by what the browser tells of it, until it is stopped. */
export class FolderFollower {
  private readonly watched: WatchedFolder;
  private observer: FolderObserver | null = null;
  private isObserved = false;
  private timer = 0;
  private isOver = false;

  constructor(
    readonly folder: FollowedFolder,
    wishes: FolderWishes,
    private readonly around: Surroundings = globalThis as unknown as Surroundings,
  ) {
    this.watched = new WatchedFolder(folder, wishes);
    void this.lookOnAndOn();
    void this.observe();
  }

  stop(): void {
    this.isOver = true;
    this.around.clearTimeout(this.timer);
    this.observer?.disconnect();
    this.watched.stop();
  }

  private async lookOnAndOn(): Promise<void> {
    await this.watched.look();
    if (this.isOver) return;
    const isQuiet = this.isObserved && !this.watched.isGrowing;
    this.around.clearTimeout(this.timer);
    this.timer = this.around.setTimeout(() => this.lookOnAndOn(), isQuiet ? QUIET_LOOK_MS : BUSY_LOOK_MS);
  }

  /** Beginning to observe may take seconds; the clock serves until then. */
  private async observe(): Promise<void> {
    const Observer = this.around.FileSystemObserver;
    if (Observer === undefined) return;
    try {
      const observer = new Observer(() => {
        if (!this.isOver) void this.lookOnAndOn();
      });
      this.observer = observer;
      await observer.observe(this.folder);
      this.isObserved = true;
      if (this.isOver) observer.disconnect();
    } catch {
      this.observer = null; // a folder that can't be observed is looked at
    }
  }
}
