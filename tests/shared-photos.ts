import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

const FOLDER = fileURLToPath(new URL('../../shared/photos/', import.meta.url));

/** Whether the folder of real files, which is not part of the repository, stands beside it. */
export const sharedPhotosPresent = existsSync(FOLDER);
if (!sharedPhotosPresent) console.log(`skipped: no real files at ${FOLDER}`);

export function sharedPhoto(path: string): Uint8Array {
  return new Uint8Array(readFileSync(FOLDER + path));
}

export function sharedPhotoNames(folder: string): string[] {
  return readdirSync(FOLDER + folder)
    .filter((name) => /\.(jpe?g|png|tiff?|icc|dng|arw|cr2|nef)$/.test(name))
    .sort()
    .map((name) => `${folder}/${name}`);
}
