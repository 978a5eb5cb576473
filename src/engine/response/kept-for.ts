import type { StoredImage } from '../intake/stored-image.ts';
import type { CameraResponse } from './camera-response.ts';

/** What cameras write by themselves; another file of the same camera went through a converter, with a curve of its own. */
const CAMERAS_OWN: readonly StoredImage['format'][] = ['jpeg', 'heic'];

/** Of the responses that are kept, the one that a frame may be read by unasked; `null` where there is none. */
export function keptFor(
  format: StoredImage['format'],
  camera: string | null,
  responses: readonly CameraResponse[],
): CameraResponse | null {
  if (camera === null || !CAMERAS_OWN.includes(format)) return null;
  return responses.find((its) => its.camera === camera) ?? null;
}
