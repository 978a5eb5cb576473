import type { FollowedFolder } from './watched-folder.ts';

/** As much of a dropped entry as is needed here. */
interface DroppedEntry {
  readonly isDirectory: boolean;
  createReader?(): { readEntries(done: (entries: DroppedEntry[]) => void, failed: () => void): void };
  file?(done: (file: File) => void, failed: () => void): void;
}

export interface DroppedFiles {
  /** Dropped by themselves. */
  readonly files: File[];
  /** In a folder that was dropped, those of folders inside left out. */
  readonly inFolders: File[];
}

/** What was dropped; to be called while the drop is handled, before anything is awaited. */
export function droppedFiles(transfer: DataTransfer | null): Promise<DroppedFiles> {
  const items = Array.from(transfer?.items ?? []).filter(({ kind }) => kind === 'file');
  const folders: DroppedEntry[] = [];
  const files: File[] = [];
  for (const item of items) {
    const entry = item.webkitGetAsEntry?.() as DroppedEntry | null;
    if (entry?.isDirectory) folders.push(entry);
    else {
      const file = item.getAsFile();
      if (file) files.push(file);
    }
  }
  return Promise.all(folders.map(filesIn)).then((inside) => ({ files, inFolders: inside.flat() }));
}

async function filesIn(folder: DroppedEntry): Promise<File[]> {
  const reader = folder.createReader?.();
  const files: File[] = [];
  for (;;) {
    // handed out in portions; an empty one is the last
    const entries = await new Promise<DroppedEntry[]>((done) => {
      if (reader) reader.readEntries(done, () => done([]));
      else done([]);
    });
    if (entries.length === 0) return files;
    for (const entry of entries) {
      const file = await new Promise<File | null>((done) => {
        if (entry.file && !entry.isDirectory) entry.file(done, () => done(null));
        else done(null);
      });
      if (file) files.push(file);
    }
  }
}

interface HandedOut {
  getAsFileSystemHandle?(): Promise<(FollowedFolder & { readonly kind: string }) | null>;
}

/** Whether one folder and nothing else was dropped, whether or not the browser hands it out. */
export const isLoneFolder = (transfer: DataTransfer | null): boolean => loneFolder(transfer) !== null;

function loneFolder(transfer: DataTransfer | null): (DataTransferItem & HandedOut) | null {
  const items = Array.from(transfer?.items ?? []).filter(({ kind }) => kind === 'file');
  const [only] = items;
  return items.length === 1 && only?.webkitGetAsEntry?.()?.isDirectory ? only : null;
}

/**
 * The folder, where one folder and nothing else was dropped and the browser hands folders out; else `null` at once. To be
 * called while the drop is handled, before anything is awaited.
 */
export function droppedFolder(transfer: DataTransfer | null): Promise<FollowedFolder | null> | null {
  const only = loneFolder(transfer);
  if (!only?.getAsFileSystemHandle) return null;
  return only.getAsFileSystemHandle().then((handle) => (handle?.kind === 'directory' ? handle : null));
}
