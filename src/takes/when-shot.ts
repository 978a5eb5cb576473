import type { FrameFacts } from '../engine/reading.ts';

/**
 * When a frame was shot, in milliseconds since 1970: by its camera's clock, taken to be set to this machine's zone; by its
 * file where the camera wrote none; else now, as it is read.
 */
export function whenShot(
  { exposure }: Pick<FrameFacts, 'exposure'>,
  frames: readonly { readonly blob: Blob }[],
  now = Date.now(),
): number {
  const byCamera = Date.parse(exposure?.takenAt ?? '');
  if (!Number.isNaN(byCamera)) return byCamera;
  const file = frames[0]?.blob;
  return file instanceof File ? file.lastModified : now;
}
