import { isPictureName } from './picture-files.ts';
import type { FollowedFolder } from './watched-folder.ts';
import type { WritableFolder } from './write-folder.ts';

/** As much of a chosen folder as is needed here. */
interface ChosenFolder extends WritableFolder, FollowedFolder {}

interface WithFolderPicker {
  showDirectoryPicker?(options?: { id?: string; mode?: 'read' | 'readwrite' }): Promise<ChosenFolder>;
}

/** Whether this browser lets a page read and write a folder that its user chooses. */
export function offersFolders(page: object = window): boolean {
  return typeof (page as WithFolderPicker).showDirectoryPicker === 'function';
}

/** Asks for a folder to write into; `null` where none was chosen. */
export async function folderToWrite(page: object = window): Promise<WritableFolder | null> {
  return chosen(page, { id: 'evenfield-corrected', mode: 'readwrite' });
}

/** Asks for a folder and hands out its files, those of folders inside left out; `null` where none was chosen. */
export async function filesOfFolder(page: object = window): Promise<File[] | null> {
  const folder = await chosen(page, { id: 'evenfield-frames', mode: 'read' });
  if (folder === null) return null;
  const files: File[] = [];
  for await (const entry of folder.values())
    if (entry.kind === 'file' && entry.getFile) files.push(await entry.getFile());
  return files.sort((a, b) => a.name.localeCompare(b.name, 'en', { numeric: true }));
}

/** Asks for a folder to follow; `null` where none was chosen. */
export async function folderToFollow(page: object = window): Promise<FollowedFolder | null> {
  return chosen(page, { id: 'evenfield-tethered', mode: 'read' });
}

async function chosen(
  page: object,
  wish: { id: string; mode: 'read' | 'readwrite' },
): Promise<ChosenFolder | null> {
  try {
    return await (page as Required<WithFolderPicker>).showDirectoryPicker(wish);
  } catch (error) {
    if ((error as { name?: unknown } | null)?.name === 'AbortError') return null; // nobody has to choose
    throw error;
  }
}

/** What earlier corrections were written as (`corrected-name.ts`): corrected once more they would be wrong. */
const RESULTS = /\.corrected(-\d+)?\.\w+$/i;

/** Of a whole folder, what a frame can be, by name, and no result of an earlier correction; a file chosen by itself is tried whatever it is called. */
export function framesAmong(files: readonly File[]): { frames: File[]; others: number } {
  const frames = files.filter(
    ({ name }) => isPictureName(name) && !RESULTS.test(name) && !name.startsWith('.'),
  );
  return { frames, others: files.length - frames.length };
}
