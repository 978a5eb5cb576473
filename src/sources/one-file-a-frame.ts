import { stemOf } from './camera-file-names.ts';
import { isRawName } from './picture-files.ts';

/** Of a frame that the camera wrote as raw and as a picture beside it, the raw file alone. */
export function oneFileAFrame(files: readonly File[]): File[] {
  const raws = new Set(files.filter(({ name }) => isRawName(name)).map(({ name }) => stemOf(name)));
  return files.filter(({ name }) => isRawName(name) || !raws.has(stemOf(name)));
}
