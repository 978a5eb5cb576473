import type { LinearFrame } from './linear-frame.ts';

/** Whether a pixel was clipped in the file, where its samples no longer show that themselves. */
export function isMarked({ fileCodes }: LinearFrame, pixel: number): boolean {
  return fileCodes !== undefined && (fileCodes.extremes[pixel]! & 1) === 1;
}
