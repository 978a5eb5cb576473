import { numberedName } from './corrected-name.ts';
import { ReadFailure } from './read-failure.ts';

/** As much of a FileSystemDirectoryHandle as is needed here. */
export interface WritableFolder {
  readonly name: string;
  getFileHandle(name: string, options?: { create?: boolean }): Promise<WritableEntry>;
  removeEntry(name: string): Promise<void>;
}

export interface WritableEntry {
  getFile(): Promise<Pick<File, 'size'>>;
  createWritable(): Promise<{
    write(data: Blob): Promise<void>;
    close(): Promise<void>;
    abort(reason?: unknown): Promise<void>;
  }>;
}

/** More files of one name than anybody has; above it something else is wrong. */
const MOST_OF_A_NAME = 10_000;

/**
 * Writes files into a folder that was chosen for it, none over another: a name that is taken gets a number. What fails
 * half-way is removed again. Several writes may run at once; names are given out one at a time.
 */
export class FolderWriter {
  private readonly folder: WritableFolder;
  private named: Promise<unknown> = Promise.resolve();

  constructor(folder: WritableFolder) {
    this.folder = folder;
  }

  /**
   * Writes one file and says under which name.
   *
   * @throws {@link ReadFailure} `storage-full`, `cannot-write`, `cancelled` by the signal.
   */
  async write(name: string, data: Blob, signal?: AbortSignal): Promise<string> {
    try {
      signal?.throwIfAborted();
      const taken = this.named.then(() => this.takeName(name));
      this.named = taken.catch(() => {});
      const { freeName, entry } = await taken;
      await this.fill(entry, data, signal).catch(async (error: unknown) => {
        await this.folder.removeEntry(freeName).catch(() => {}); // a folder that is gone holds nothing of it
        throw error;
      });
      return freeName;
    } catch (error) {
      throw this.failure(error, name, data.size, signal);
    }
  }

  /** Makes an empty file of a name that was free. */
  private async takeName(name: string): Promise<{ freeName: string; entry: WritableEntry }> {
    for (let number = 1; number < MOST_OF_A_NAME; number++) {
      const freeName = numberedName(name, number);
      if (await this.isTaken(freeName)) continue;
      const entry = await this.folder.getFileHandle(freeName, { create: true });
      // another program may have been faster in between: what holds something is its file
      const { size } = await entry.getFile().catch(async (error: unknown) => {
        await this.folder.removeEntry(freeName).catch(() => {});
        throw error;
      });
      if (size === 0) return { freeName, entry };
    }
    throw new Error(`${MOST_OF_A_NAME} files of that name are there`);
  }

  private async isTaken(name: string): Promise<boolean> {
    try {
      await this.folder.getFileHandle(name);
      return true;
    } catch (error) {
      if (nameOf(error) === 'NotFoundError') return false;
      if (nameOf(error) === 'TypeMismatchError') return true; // a folder
      throw error;
    }
  }

  private async fill(entry: WritableEntry, data: Blob, signal: AbortSignal | undefined): Promise<void> {
    const writable = await entry.createWritable();
    try {
      await writable.write(data);
      signal?.throwIfAborted();
      await writable.close();
    } catch (error) {
      await writable.abort(error).catch(() => {}); // one that failed while closing is aborted already
      throw error;
    }
  }

  private failure(error: unknown, name: string, bytes: number, signal: AbortSignal | undefined): ReadFailure {
    const folder = this.folder.name;
    if (signal?.aborted)
      return new ReadFailure(
        'cancelled',
        `Writing ${name} was cancelled; nothing of it was left behind.`,
        name,
        error,
      );
    if (nameOf(error) === 'QuotaExceededError')
      return new ReadFailure(
        'storage-full',
        `There is no room for ${name} in the folder ${folder}: ${Math.ceil(bytes / 1e6)} MB were needed. Make room or choose another disk, and correct this frame again; what was written before is whole.`,
        name,
        error,
      );
    const why =
      nameOf(error) === 'NotAllowedError' || nameOf(error) === 'SecurityError'
        ? 'the permission to write there was taken back'
        : nameOf(error) === 'NotFoundError'
          ? 'the folder is no longer where it was'
          : error instanceof Error
            ? error.message
            : String(error);
    return new ReadFailure(
      'cannot-write',
      `${name} can’t be written to the folder ${folder} (${why.replace(/\.+$/, '')}). Choose the folder again, or another one, and correct this frame again; what was written before is whole.`,
      name,
      error,
    );
  }
}

/** By name and not by kind: a DOMException may come from another window or worker. */
function nameOf(error: unknown): string {
  const { name } = (error ?? {}) as { name?: unknown };
  return typeof name === 'string' ? name : '';
}
