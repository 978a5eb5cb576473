import { isPassing, stemOf } from './camera-file-names.ts';
import { isPictureName, isRawName } from './picture-files.ts';

/** As much of a folder's handle as is needed to follow it. */
export interface FollowedFolder {
  readonly name: string;
  values(): AsyncIterable<FolderEntry>;
}

export interface FolderEntry {
  readonly kind: string;
  readonly name: string;
  getFile?(): Promise<File>;
}

/** What keeps a folder from being followed: it is not there, or the browser wants to be asked for it again. */
export type FolderTrouble = 'gone' | 'not-allowed';

export interface FolderWishes {
  /** Takes a frame that is complete; resolves to whether it could be read. Called for one frame at a time. */
  readonly take: (file: File) => Promise<boolean>;
  /** Told when following is hindered, and with `null` when it goes on. */
  readonly trouble: (trouble: FolderTrouble | null) => void;
  /** Told when the number of frames that wait to be read changes. */
  readonly waiting?: (frames: number) => void;
  /** Milliseconds that never run backwards. */
  readonly now?: () => number;
}

interface Seen {
  readonly size: number;
  readonly modified: number;
  /** When it was first seen like this. */
  readonly since: number;
  /** `left`: there before, or another file of the same frame was taken. */
  state: 'left' | 'growing' | 'waiting' | 'read' | 'failed';
}

/** A file that has not grown for so long is complete; a writer that pauses for longer is caught by reading it again. */
export const STILL_MS = 300;

/** Where a camera writes both, a JPEG waits so long for its raw file. */
const RAW_FOLLOWS_MS = 1500;

/**
 * Follows a folder that a camera writes into: what was there before is left, and each further frame is handed out once
 * it is complete, oldest first. A frame that could not be read is handed out again if it changes. Where a camera writes
 * a raw file and a JPEG of one frame, the raw file alone is handed out.
 *
 * `look` is to be called again and again, by a clock and whenever the folder is known to have changed.
 */
export class WatchedFolder {
  private readonly seen = new Map<string, Seen>();
  private readonly queue: string[] = [];
  private troubled: FolderTrouble | null = null;
  private isFirst = true;
  private looking: Promise<void> | null = null;
  private working: Promise<void> | null = null;
  private isOver = false;
  private readonly entries = new Map<string, FolderEntry>();

  constructor(
    private readonly folder: FollowedFolder,
    private readonly wishes: FolderWishes,
  ) {}

  /** Whether a file is not complete yet, or the folder is not to be had: worth looking at again soon. */
  get isGrowing(): boolean {
    return this.troubled !== null || [...this.seen.values()].some(({ state }) => state === 'growing');
  }

  /** Looks once; a look that is still under way serves both. Never rejects. */
  look(): Promise<void> {
    this.looking ??= this.lookOnce().finally(() => {
      this.looking = null;
    });
    return this.looking;
  }

  /** Resolves once all that was complete at the last look has been taken. */
  async settled(): Promise<void> {
    while (this.working !== null) await this.working;
  }

  /** Hands out nothing more. */
  stop(): void {
    this.isOver = true;
    this.queue.length = 0;
  }

  private async lookOnce(): Promise<void> {
    const names = new Set<string>();
    try {
      for await (const entry of this.folder.values()) {
        if (this.isOver) return;
        if (entry.kind !== 'file' || !entry.getFile || isPassing(entry.name) || !isPictureName(entry.name))
          continue;
        names.add(entry.name);
        this.entries.set(entry.name, entry);
        await this.note(entry);
      }
    } catch (error) {
      this.tell(troubleOf(error));
      return;
    }
    this.tell(null);
    this.isFirst = false;
    for (const name of this.seen.keys()) if (!names.has(name)) this.forget(name);
    this.enqueue();
  }

  /** Notes how large a file is by now. One that is gone between listing and looking is met at the next look. */
  private async note(entry: FolderEntry): Promise<void> {
    const before = this.seen.get(entry.name);
    if (before && before.state !== 'growing' && before.state !== 'failed') return;
    const file = await entry.getFile!().catch((error: unknown) => {
      if (troubleOf(error) === 'not-allowed') throw error;
      return null;
    });
    if (file === null) return;
    const now = this.now();
    const { size, lastModified: modified } = file;
    if (before && before.size === size && before.modified === modified) return;
    const state = this.isFirst ? 'left' : 'growing';
    this.seen.set(entry.name, { size, modified, since: now, state });
  }

  private forget(name: string): void {
    this.seen.delete(name);
    this.entries.delete(name);
    const at = this.queue.indexOf(name);
    if (at >= 0) this.queue.splice(at, 1);
  }

  /** Lets what has not grown for a while wait its turn, oldest first. */
  private enqueue(): void {
    const now = this.now();
    const names = [...this.seen.keys()];
    const raws = new Set(names.filter(isRawName).map(stemOf));
    const others = new Set(names.filter((name) => !isRawName(name)).map(stemOf));
    const writesPairs = [...raws].some((stem) => others.has(stem));
    const stillFor = (name: string) =>
      writesPairs && !isRawName(name) && !raws.has(stemOf(name)) ? STILL_MS + RAW_FOLLOWS_MS : STILL_MS;
    const still = [...this.seen].filter(
      ([name, { state, size, since }]) => state === 'growing' && size > 0 && now - since >= stillFor(name),
    );
    for (const [name, seen] of still) {
      const isOther = isRawName(name) ? this.hasTakenOther(name) : raws.has(stemOf(name));
      seen.state = isOther ? 'left' : 'waiting';
      if (!isOther) this.queue.push(name);
    }
    const modified = (name: string) => this.seen.get(name)?.modified ?? 0;
    // also before those that wait already: a file that a look has missed, or could not open, is no later frame for that
    this.queue.sort((a, b) => modified(a) - modified(b) || a.localeCompare(b, 'en', { numeric: true }));
    this.tellWaiting();
    if (this.queue.length > 0)
      this.working ??= this.workOff().finally(() => {
        this.working = null;
      });
  }

  /** Whether a JPEG of the same frame was taken before its raw file came. */
  private hasTakenOther(rawName: string): boolean {
    return [...this.seen].some(
      ([name, { state }]) =>
        !isRawName(name) && stemOf(name) === stemOf(rawName) && (state === 'read' || state === 'waiting'),
    );
  }

  private async workOff(): Promise<void> {
    for (let name = this.queue.shift(); name !== undefined && !this.isOver; name = this.queue.shift()) {
      this.tellWaiting();
      const seen = this.seen.get(name);
      const file = await this.entries
        .get(name)
        ?.getFile?.()
        .catch(() => null);
      if (!seen) continue;
      if (!file) {
        seen.state = 'growing'; // held by its writer for the moment: it comes again at the next look
        continue;
      }
      const isRead = await this.wishes.take(file).catch(() => false);
      seen.state = isRead ? 'read' : 'failed';
    }
  }

  private tellWaiting(): void {
    this.wishes.waiting?.(this.queue.length);
  }

  private tell(trouble: FolderTrouble | null): void {
    if (this.isOver || trouble === this.troubled) return;
    this.troubled = trouble;
    this.wishes.trouble(trouble);
  }

  private now(): number {
    return this.wishes.now?.() ?? performance.now();
  }
}

/** What a browser throws of a folder that it does not hand out; anything but a refusal means that it is not there. */
function troubleOf(error: unknown): FolderTrouble {
  const { name } = (error ?? {}) as { name?: unknown };
  return name === 'NotAllowedError' || name === 'SecurityError' ? 'not-allowed' : 'gone';
}
