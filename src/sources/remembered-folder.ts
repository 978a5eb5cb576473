import { openDB } from 'idb';
import type { FollowedFolder } from './watched-folder.ts';

/** Where the folder that was followed last is remembered, so that it need not be looked for again. */
export interface FolderMemory {
  remember(folder: FollowedFolder): Promise<void>;
  recall(): Promise<FollowedFolder | null>;
}

const STORE = 'folders';
const LAST = 'followed last';

/** Remembers it in the browser's own database, beside the takes; where nothing is kept of these, neither is this. */
export class RememberedFolder implements FolderMemory {
  /** @param shelf the name of the takes' shelf; `null`: there is none. */
  constructor(private readonly shelf: () => string | null) {}

  async remember(folder: FollowedFolder): Promise<void> {
    await this.withStore(async (database) => {
      await database.put(STORE, folder, LAST);
    });
  }

  async recall(): Promise<FollowedFolder | null> {
    return (await this.withStore((database) => database.get(STORE, LAST))) ?? null;
  }

  /** Opened for each call alone, so that no page keeps another from anything. */
  private async withStore<T>(
    work: (database: Awaited<ReturnType<typeof openDB>>) => Promise<T>,
  ): Promise<T | null> {
    const shelf = this.shelf();
    if (shelf === null) return null;
    try {
      const database = await openDB(`${shelf} folder`, 1, {
        upgrade: (opened) => {
          opened.createObjectStore(STORE);
        },
      });
      try {
        return await work(database);
      } finally {
        database.close();
      }
    } catch {
      return null; // a folder is soon chosen again
    }
  }
}
